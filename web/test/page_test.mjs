// The whole job in a browser, from an empty page to a printed packet.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { browser, serve } from "./browser.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
const STAGES = ["Measure", "Choose", "Check", "Buy", "Cut", "Build", "Sign off"];
const PHONE = [390, 844];
const LAPTOP = [1440, 900];

let server;
before(async () => void (server = await serve()));
after(() => server.stop());

/** Runs with a page at the address, and fails where it complained. */
async function page([width, height], run, options) {
  const { context, complaints, close } = await browser(width, height, options);
  try {
    const page = await context.newPage();
    await page.goto(server.address);
    await planned(page);
    await run(page, context);
    assert.deepEqual(complaints, []);
  } finally {
    await close();
  }
}
const planned = async (page) => {
  await page.waitForSelector(".summary");
  await page.waitForFunction(() => !document.querySelector(".summary").textContent.includes("…"));
};
const stage = (page, name) => page.click(`.stages button:text-is("${name}")`);
const summary = async (page) => (await page.textContent(".summary")).trim();
/** Types a value as the keypad's text for the figure of that key. */
async function type(page, key, text) {
  await page.click(`text[data-input="${key}"]`);
  await page.fill("dialog input", text);
  await page.keyboard.press("Enter");
  await page.waitForSelector("dialog", { state: "detached" });
  await planned(page);
}

test("five readings by thumb give a stair, and one that holds is chosen, checked, bought, cut and printed", () =>
  page(PHONE, async (page) => {
    const before = await summary(page);
    const tap = (name) => page.tap(name);
    const keys = async (key, feet, inches, sixteenth) => {
      await tap(`text[data-input="${key}"]`);
      await tap(`fieldset:has(legend:text-is("feet")) button:text-is("${feet}")`);
      await tap(`fieldset:has(legend:text-is("inches")) button:text-is("${inches}")`);
      await tap(`.ticks button[aria-label="${sixteenth} in"]`);
      await tap('dialog button:text-is("Set it")');
      await planned(page);
    };
    await keys("ground.middle[0].out", 1, 6, "0");
    await keys("ground.middle[0].down", 2, 5, "3/8");
    await keys("ground.middle[1].out", 6, 0, "0");
    await keys("ground.middle[1].down", 2, 6, "1/16");
    await keys("stair.width", 3, 4, "0");
    assert.equal(await page.locator(".notice").count(), 0, "everything is measured");
    assert.notEqual(await summary(page), before);

    await stage(page, "Choose");
    await page.waitForSelector(".cards > li", { timeout: 120_000 });
    await page.click(".cards > li.best button");
    await planned(page);
    assert.match(await page.textContent(".cards > li.best button"), /Taken/);
    assert.equal(await page.locator(".summary .fails").count(), 0, "what is on the front fails nowhere");
    await stage(page, "Check");
    assert.equal(await page.locator(".checks > .fail").count(), 0);
    await stage(page, "Buy");
    const total = await page.textContent("main .big");
    assert.ok((await summary(page)).includes(total.replace(/^\D*?(?=[A-Z]{3} )/, "")), total);
    await stage(page, "Cut");
    assert.ok((await page.locator(".boards > li").count()) > 3);
    await page.evaluate(() => void (globalThis.print = () => {}));
    await page.click('header button:text-is("Jobs")');
    await page.click('button:text-is("Print the sheets")');
    await page.waitForFunction(() => document.querySelectorAll("#sheets svg").length > 5);
  }, { hasTouch: true, isMobile: true }));

test("what was typed, and the way back, outlive a reload", () =>
  page(LAPTOP, async (page) => {
    const first = await summary(page);
    await type(page, "ground.middle[1].down", "4' 2 1/2\"");
    const second = await summary(page);
    assert.notEqual(second, first);
    await page.waitForTimeout(200);
    await page.reload();
    await planned(page);
    assert.equal(await summary(page), second);
    await page.click('button:text-is("Undo")');
    await page.waitForFunction((words) => document.querySelector(".summary").textContent.trim() === words, first);
    await page.click('button:text-is("Redo")');
    await page.waitForFunction((words) => document.querySelector(".summary").textContent.trim() === words, second);
  }));

test("a reading that cannot be is explained, and the last good plan stays, marked old", () =>
  page(LAPTOP, async (page) => {
    const good = await summary(page);
    await page.click('text[data-input="ground.middle[0].down"]');
    await page.fill("dialog input", "three spans");
    await page.keyboard.press("Enter");
    await page.waitForSelector('[role="alert"]');
    assert.match(await page.textContent('[role="alert"]'), /ground\.middle\[0\]\.down/);
    assert.equal(await summary(page), good);
    await page.click('button:text-is("Undo")');
    await page.waitForSelector('[role="alert"]', { state: "detached" });
  }));

test("with the keyboard alone a figure is set and a step is lit", () =>
  page(LAPTOP, async (page) => {
    const first = await summary(page);
    await page.focus('text[data-input="ground.middle[0].down"]');
    await page.keyboard.press("Enter");
    await page.waitForSelector("dialog input:focus");
    await page.keyboard.press("Control+A");
    await page.keyboard.type("40 1/2 in");
    await page.keyboard.press("Enter");
    await page.waitForFunction((words) => document.querySelector(".summary").textContent.trim() !== words, first);
    await page.focus(".pole li:last-child button");
    await page.keyboard.press("Space");
    await page.waitForSelector("g.lit");
  }));

test("once visited it plans with no server", async () => {
  const { context, close } = await browser(...PHONE);
  const own = await serve();
  try {
    const page = await context.newPage();
    await page.goto(own.address);
    await page.waitForSelector("html[data-offline-ready]", { state: "attached", timeout: 60_000 });
    await planned(page);
    const words = await summary(page);
    await own.stop();
    await page.reload();
    await planned(page);
    assert.equal(await summary(page), words);
  } finally {
    await close();
  }
});

test("stored data that are broken are put aside, and the page starts", () =>
  page(LAPTOP, async (page) => {
    await type(page, "ground.middle[1].down", "50 in");
    await page.waitForTimeout(200);
    await page.evaluate(
      () =>
        new Promise((done) => {
          const open = indexedDB.open("pitchboard");
          open.onsuccess = () => {
            const change = open.result.transaction("jobs", "readwrite");
            change.objectStore("jobs").clear();
            change.objectStore("jobs").put({ id: "x", history: "torn" });
            change.oncomplete = done;
          };
        }),
    );
    await page.reload();
    await planned(page);
    const unread = await page.evaluate(
      () =>
        new Promise((done) => {
          const open = indexedDB.open("pitchboard");
          open.onsuccess = () => (open.result.transaction("unread").objectStore("unread").getAll().onsuccess = (e) => done(e.target.result));
        }),
    );
    assert.deepEqual(unread, [{ id: "x", history: "torn" }]);
  }));

for (const [name, size] of [["phone", PHONE], ["laptop", LAPTOP]]) {
  // SOURCE WCAG 2.2 A and AA as axe-core tests them.
  test(`on a ${name} no stage has a fault of accessibility, in either language`, () =>
    page(size, async (page) => {
      await page.evaluate(readFileSync(axe, "utf8"));
      for (const language of ["en", "es"]) {
        await page.click("header .row > :last-child");
        await page.selectOption("section.jobs select >> nth=0", language);
        await page.click("header .row > :last-child");
        for (let i = 0; i < STAGES.length; ++i) {
          await page.click(`.stages button >> nth=${i}`);
          if (STAGES[i] === "Choose") await page.waitForSelector(".cards > li", { timeout: 120_000 });
          const { violations } = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }));
          assert.deepEqual(
            violations.map((v) => `${language} ${STAGES[i]} ${v.id}: ${v.nodes[0]?.html.slice(0, 160)}`),
            [],
          );
        }
      }
    }));
}
