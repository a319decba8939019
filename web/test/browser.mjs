// The served page in the system's own browser, and what one does with it.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const built = fileURLToPath(new URL("../dist", import.meta.url));

export const program = process.env.PITCHBOARD ?? fileURLToPath(new URL("../../build/release/pitchboard", import.meta.url));

/** RETURNS address and `stop` of a server of the built page. */
export async function serve() {
  const server = spawn(program, ["serve", built], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((found, failed) => {
    server.stdout.on("data", (text) => /http:\S+/.exec(text)?.[0] && found(/http:\S+/.exec(text)[0]));
    server.on("exit", (code) => failed(new Error(`the server ended with ${code}`)));
  });
  return { address, stop: () => new Promise((gone) => (server.removeAllListeners("exit"), server.on("exit", gone), server.kill())) };
}

/** RETURNS a browser of that size with a memory of its own, and whatever its pages complain of. `solid`: whether it draws
 * three dimensions, without a graphics card, which takes its start half as long again. */
export async function browser(width, height, { solid = true, ...options } = {}) {
  const memory = mkdtempSync(path.join(tmpdir(), "page-"));
  const context = await chromium.launchPersistentContext(memory, {
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", ...(solid ? ["--use-angle=swiftshader", "--enable-unsafe-swiftshader"] : [])],
    viewport: { width, height },
    ...options,
  });
  const complaints = [];
  context.on("weberror", (error) => complaints.push(String(error.error())));
  context.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  return { context, complaints, close: async () => (await context.close(), rmSync(memory, { recursive: true, force: true })) };
}

export const PHONE = [390, 844];
export const LAPTOP = [1440, 900];
export const STAGES = ["Measure", "Choose", "Check", "Buy", "Cut", "Build", "Sign off"];

/** Runs with a page at the address, and fails where it complained. */
export async function withPage(address, [width, height], run, options) {
  const { context, complaints, close } = await browser(width, height, options);
  try {
    const page = await context.newPage();
    await page.goto(address);
    await planned(page);
    await run(page, context);
    assert.deepEqual(complaints, []);
  } finally {
    await close();
  }
}
export async function planned(page) {
  await page.waitForSelector(".summary");
  await page.waitForFunction(() => !document.querySelector(".summary").textContent.includes("…"));
}
export const stage = (page, name) => page.click(`.stages button:text-is("${name}")`);
export const summary = async (page) => (await page.textContent(".summary")).trim();
export const summaryIs = (page, words) => page.waitForFunction((text) => document.querySelector(".summary").textContent.trim() === text, words);
/** Types a value as the keypad's text for the figure of that key. */
export async function type(page, key, text) {
  await page.click(`text[data-input="${key}"]`);
  await page.fill("dialog input", text);
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog", { state: "detached" });
  await planned(page);
}
/** RETURNS the picture of a page, or of a part of one, once it stands still and shows what it should. */
export async function still(target, shows = () => true) {
  let last;
  for (const from = performance.now(); performance.now() - from < 60_000; ) {
    const next = await target.screenshot();
    if (last?.equals(next) && shows(next)) return next;
    last = next;
    await new Promise((later) => setTimeout(later, 400));
  }
  return assert.fail("the page does not come to rest");
}
/** Opens a file of that name and content as a job. */
export async function open(page, name, buffer) {
  await page.click('header button:text-is("Jobs")');
  await page.setInputFiles('input[type="file"]', { name, mimeType: "application/octet-stream", buffer });
  await page.waitForSelector("section.jobs", { state: "detached" });
  await planned(page);
}
