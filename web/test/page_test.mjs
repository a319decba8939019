// The whole job in a browser, from an empty page to a printed packet.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { browser, LAPTOP, PHONE, planned, serve, stage, STAGES, summary, summaryIs, type, withPage } from "./browser.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

let server;
before(async () => void (server = await serve()));
after(() => server.stop());
const page = (size, run, options) => withPage(server.address, size, run, options);

for (const [name, size, options] of [["phone", PHONE, { hasTouch: true, isMobile: true }], ["laptop", LAPTOP, { hasTouch: true }]])
  test(`on a ${name} five readings by thumb give a stair, and one that holds is chosen, checked, bought, cut and printed`, () =>
    page(size, async (page) => {
    const before = await summary(page);
    const tap = (name) => page.tap(name);
    const keys = async (key, feet, inches, sixteenth) => {
      await tap(`text[data-input="${key}"]`);
      await tap(`fieldset:has(legend:text-is("feet")) button:text-is("${feet}")`);
      await tap(`fieldset:has(legend:text-is("inches")) button:text-is("${inches}")`);
      await tap(`.ticks button[aria-label="${sixteenth} in"]`);
      await tap('dialog button:text-is("Set it")');
      await page.waitForSelector("dialog", { state: "detached" });
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
  }, options));

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
    await summaryIs(page, first);
    await page.click('button:text-is("Redo")');
    await summaryIs(page, second);
  }));

test("a reading that cannot be is explained where it is typed, and is not taken", () =>
  page(LAPTOP, async (page) => {
    const good = await summary(page);
    await page.click('text[data-input="ground.middle[0].down"]');
    await page.fill("dialog input", "three spans");
    await page.keyboard.press("Enter");
    await page.waitForSelector('dialog [role="alert"]');
    assert.match(await page.textContent('dialog [role="alert"]'), /three spans/);
    await page.fill("dialog input", "37");
    await page.keyboard.press("Enter");
    await page.waitForSelector("dialog", { state: "detached" });
    await planned(page);
    assert.notEqual(await summary(page), good);
    assert.match(await page.textContent('text[data-input="ground.middle[0].down"]'), /37/, "a bare number is in inches");
  }));

test("where no stair fits, what collides is told, and the last good plan stays, marked old", () =>
  page(LAPTOP, async (page) => {
    const good = await summary(page);
    await stage(page, "Choose");
    await page.click('summary:text-is("Everything else, as it is assumed")');
    await page.click('.inputs button:has-text("stair: risers")');
    await page.fill("dialog input", "2");
    await page.keyboard.press("Enter");
    await page.waitForSelector('main [role="alert"]');
    assert.match(await page.textContent('main [role="alert"]'), /Old plan/);
    assert.equal(await summary(page), good);
    await page.click('button:text-is("Undo")');
    await page.waitForSelector('main [role="alert"]', { state: "detached" });
  }));

test("in millimetres a bare number is one, on a keyboard of numbers", () =>
  page(PHONE, async (page) => {
    await page.click('header button:text-is("Jobs")');
    await page.selectOption("section.jobs select >> nth=1", "metric");
    await page.click('header button:text-is("Jobs")');
    await planned(page);
    await page.click('text[data-input="ground.middle[0].down"]');
    assert.equal(await page.inputValue("dialog input"), "914 mm");
    await page.fill("dialog input", "960");
    await page.keyboard.press("Enter");
    await page.waitForSelector("dialog", { state: "detached" });
    await planned(page);
    assert.match(await page.textContent('text[data-input="ground.middle[0].down"]'), /960/);
  }));

test("a list may be scrolled to its end, and the page stays where it is", () =>
  page(LAPTOP, async (page) => {
    await stage(page, "Buy");
    await page.click('summary:text-is("Everything else, as it is assumed")');
    await page.mouse.move(1200, 500);
    for (let i = 0; i < 12; ++i) await page.mouse.wheel(0, 1500);
    await page.waitForTimeout(300);
    assert.equal(await page.evaluate(() => document.scrollingElement.scrollTop), 0);
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
          if (i === 4) await page.click(".boards .mark-button");
          if (i === 5) await page.click(".shapes button >> nth=1");
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

for (const width of [360, 820]) {
  test(`at ${width} px nothing runs off the side, and what a thumb touches is 48 px high`, () =>
    page([width, 740], async (page) => {
      for (const name of STAGES) {
        await stage(page, name);
        if (name === "Choose") await page.waitForSelector(".cards > li", { timeout: 120_000 });
        for (const details of await page.locator("main > details > summary").all()) await details.click();
        const found = await page.evaluate(() => ({
          width: document.scrollingElement.scrollWidth,
          beyond: [...document.querySelectorAll("main *, header *, nav *")].filter((e) => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest(".unseen")).map((e) => e.outerHTML.slice(0, 80)),
          // The story pole's marks stand as close as the treads do.
          low: [...document.querySelectorAll("button, select, summary, .button")].filter((e) => !e.closest(".pole") && e.checkVisibility() && e.getBoundingClientRect().height < 47.5).map((e) => e.outerHTML.slice(0, 80)),
        }));
        assert.ok(found.width <= width, `${name}: ${found.width} px wide`);
        assert.deepEqual(found.beyond, [], name);
        assert.deepEqual(found.low, [], name);
      }
    }));
}
