// Jobs and packets in and out of the page, and what the browser keeps of them.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { unzipSync } from "fflate";
import { LAPTOP, open, PHONE, planned, program, serve, stage, summary, summaryIs, type, withPage } from "./browser.mjs";

const example = new URL("../../examples/low-farmhouse-step.toml", import.meta.url).pathname;
let server;
before(async () => void (server = await serve()));
after(() => server.stop());
const page = (size, run, options) => withPage(server.address, size, run, options);
const saved = async (page, button) => {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click(`button:text-is("${button}")`)]);
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
};

test("a job file of the program is planned to the same packet as by the program", () =>
  page(LAPTOP, async (page) => {
    await open(page, "farmhouse.toml", readFileSync(example));
    await page.click('header button:text-is("Jobs")');
    const { name, bytes } = await saved(page, "Save the packet");
    assert.match(name, /\.zip$/);
    const files = unzipSync(new Uint8Array(bytes));
    const native = execFileSync(program, ["plan", example, "--json"], { maxBuffer: 1e9 });
    assert.ok(native.equals(Buffer.from(files["plan.json"])));
    for (const kind of [/^sheets\/.*svg$/, /^calculation\/.*svg$/, /^model\.glb$/, /^order\.csv$/, /^job\.json$/])
      assert.ok(Object.keys(files).some((file) => kind.test(file)), String(kind));
  }));

test("a packet opened again is the same job, readings as built and picked stair with it", () =>
  page(LAPTOP, async (page) => {
    await type(page, "ground.middle[1].down", "41 in");
    await stage(page, "Sign off");
    await page.fill("table input >> nth=0", '7 1/4"');
    await page.keyboard.press("Tab");
    const words = await summary(page);
    await page.click('header button:text-is("Jobs")');
    const { bytes } = await saved(page, "Save the packet");
    await page.click('button:text-is("New job")');
    await page.waitForFunction((old) => document.querySelector(".summary").textContent.trim() !== old, words);
    await open(page, "again.zip", bytes);
    await summaryIs(page, words);
    await stage(page, "Sign off");
    assert.equal(await page.inputValue("table input >> nth=0"), '7 1/4"');
  }));

test("a file that is none is refused with a reason, and the job stays", () =>
  page(PHONE, async (page) => {
    const words = await summary(page);
    await page.click('header button:text-is("Jobs")');
    await page.setInputFiles('input[type="file"]', { name: "photo.json", mimeType: "text/plain", buffer: Buffer.from("\u0089PNG") });
    assert.match(await page.textContent('.jobs [role="alert"]'), /photo\.json.*open a job file/s);
    assert.equal(await summary(page), words);
  }));

test("two tabs show one job, whichever it is changed in", () =>
  page(LAPTOP, async (first, context) => {
    await type(first, "ground.middle[1].down", "44 in");
    const words = await summary(first);
    const second = await context.newPage();
    await second.goto(server.address);
    await planned(second);
    assert.equal(await summary(second), words);
    await type(second, "ground.middle[1].down", "36 in");
    const changed = await summary(second);
    assert.notEqual(changed, words);
    await summaryIs(first, changed);
    await first.click('button:text-is("Undo")');
    await summaryIs(first, words);
    await summaryIs(second, words);
  }));

test("a price of one's own yard changes the order, and can be taken back", () =>
  page(LAPTOP, async (page) => {
    await stage(page, "Buy");
    const total = () => page.textContent("main .big");
    const before = await total();
    for (const group of ["lumber", "hardware"]) {
      const price = `table:has(caption:text-is("${group}")) .money button >> nth=0`;
      await page.click(price);
      await page.fill("dialog input", "0.50");
      await page.keyboard.press("Enter");
      await page.waitForFunction((old) => document.querySelector("main .big").textContent !== old, before);
      await page.waitForSelector(`table:has(caption:text-is("${group}")) .money button:has-text("0.50 set")`);
      await page.click('button:text-is("Undo")');
      await page.waitForFunction((old) => document.querySelector("main .big").textContent === old, before);
    }
    const { name, bytes } = await saved(page, "As CSV");
    assert.match(name, /\.csv$/);
    assert.match(String(bytes), /^group,item,/);
  }));

test("what stands in the way is listed, one thing after another", () =>
  page(PHONE, async (page) => {
    await page.click('summary:text-is("Everything else, as it is assumed")');
    const list = 'fieldset:has(legend:text-is("room: obstacles"))';
    await page.click(`${list} button:has-text("Add one")`);
    await page.click(`${list} summary`);
    // Until all of it is given, nothing is planned with it.
    await page.waitForSelector('main [role="alert"]');
    await page.click(`${list} .inputs button:has-text("name")`);
    await page.fill("dialog input", "downspout");
    await page.keyboard.press("Enter");
    await page.waitForSelector(`${list} summary:has-text("downspout")`);
    await page.click(`${list} button:has-text("Remove")`);
    await page.waitForSelector(`${list} summary`, { state: "detached" });
  }));

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
