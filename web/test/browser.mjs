// The served page in the system's own browser.
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const built = fileURLToPath(new URL("../dist", import.meta.url));

/** RETURNS address and `stop` of a server of the built page. */
export async function serve() {
  const program = process.env.PITCHBOARD ?? fileURLToPath(new URL("../../build/release/pitchboard", import.meta.url));
  const server = spawn(program, ["serve", built], { stdio: ["ignore", "pipe", "inherit"] });
  const address = await new Promise((found, failed) => {
    server.stdout.on("data", (text) => /http:\S+/.exec(text)?.[0] && found(/http:\S+/.exec(text)[0]));
    server.on("exit", (code) => failed(new Error(`the server ended with ${code}`)));
  });
  return { address, stop: () => new Promise((gone) => (server.removeAllListeners("exit"), server.on("exit", gone), server.kill())) };
}

/** RETURNS a browser of that size with a memory of its own, and whatever its pages complain of. */
export async function browser(width, height, options = {}) {
  const memory = mkdtempSync(path.join(tmpdir(), "page-"));
  const context = await chromium.launchPersistentContext(memory, {
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox"],
    viewport: { width, height },
    ...options,
  });
  const complaints = [];
  context.on("weberror", (error) => complaints.push(String(error.error())));
  context.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  return { context, complaints, close: async () => (await context.close(), rmSync(memory, { recursive: true, force: true })) };
}
