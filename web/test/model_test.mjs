// The stair in three dimensions: what a touch, a cut and the slider show.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { PNG } from "pngjs";
import pixelmatch from "pixelmatch";
import { LAPTOP, open, serve, stage, still, withPage } from "./browser.mjs";

const example = readFileSync(new URL("../../examples/low-farmhouse-step.toml", import.meta.url));
let server;
before(async () => void (server = await serve()));
after(() => server.stop());

/** Runs with the example's model on the page, seen from the side. */
const model = (run) =>
  withPage(server.address, LAPTOP, async (page) => {
    await open(page, "farmhouse.toml", example);
    await page.click('button:text-is("3-D")');
    await page.click('.tools button:text-is("Side")');
    await settled(page);
    await run(page);
  });
const differing = (a, b) => pixelmatch(a.data, b.data, undefined, a.width, a.height, { threshold: 0.1 });
/** RETURNS the picture of the model at rest, which is not all white. */
async function settled(page) {
  const shows = (shot) => {
    const picture = PNG.sync.read(shot);
    const white = new PNG({ width: picture.width, height: picture.height });
    white.data.fill(255);
    return differing(picture, white) > 5000;
  };
  return PNG.sync.read(await still(page.locator(".canvas"), shows));
}
const middle = async (page) => {
  const { x, y, width, height } = await page.locator(".canvas").boundingBox();
  return [x + width / 2, y + height / 2, width, height];
};

test("a part that is touched says what it is, and is let go again", () =>
  model(async (page) => {
    const [x, y] = await middle(page);
    await page.mouse.click(x, y);
    const card = page.locator("section.part");
    await card.waitFor();
    assert.match(await card.locator("h2").textContent(), /^[a-z ]+ [A-Z]/);
    await card.locator('button:text-is("Close")').click();
    await card.waitFor({ state: "detached" });
  }));

test("it is cut open, a person stands by, and the view turns by keys", () =>
  model(async (page) => {
    const whole = await settled(page);
    await page.fill('.tools input[type="range"]', "0.5");
    const cut = await settled(page);
    assert.ok(differing(whole, cut) > 500, "cut open");
    await page.fill('.tools input[type="range"]', "1");
    assert.ok(differing(whole, await settled(page)) < 50, "closed again");
    await page.click('.tools button:text-is("Person")');
    assert.ok(differing(whole, await settled(page)) > 500, "a person");
    await page.focus("canvas");
    const before = await settled(page);
    await page.keyboard.press("ArrowLeft");
    assert.ok(differing(before, await settled(page)) > 500, "turned");
  }));

test("the tape reads between two touches", () =>
  model(async (page) => {
    await page.click('.tools button:text-is("Top")');
    await settled(page);
    await page.click('.tools button:text-is("Tape")');
    const [x, y, , height] = await middle(page);
    for (const lower of [-0.05, 0.05]) await page.mouse.click(x, y + lower * height);
    await page.waitForFunction(() => /\d.*·.*\d/.test(document.querySelector(".measured").textContent));
  }));

test("the slider puts the stair together part by part", () =>
  model(async (page) => {
    const whole = await settled(page);
    await stage(page, "Build");
    await page.fill(".slider input", "1");
    const first = await settled(page);
    assert.ok(differing(whole, first) > 2000, "nearly nothing is up");
    await page.fill(".slider input", "8");
    assert.ok(differing(first, await settled(page)) > 200, "more is up");
    assert.match(await page.textContent(".slider span"), /^8 \/ \d+: [a-z ]+ [A-Z]/);
    await page.click('button:text-is("Whole stair")');
    assert.ok(differing(whole, await settled(page)) < 50);
  }));
