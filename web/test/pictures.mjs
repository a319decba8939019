// Pictures of the running page for the README: node web/test/pictures.mjs FOLDER, after script/run.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { open, serve, stage, withPage } from "./browser.mjs";

const folder = process.argv[2] ?? ".";
const demo = readFileSync(fileURLToPath(new URL("../../out/job.json", import.meta.url)));
const { address, stop } = await serve();
const take = (name, size, show) =>
  withPage(address, size, async (page) => {
    await open(page, "demo.json", demo);
    await show(page);
    await page.waitForTimeout(1500);
    await page.screenshot({ path: `${folder}/${name}.png` });
  });
await take("page-measure", [390, 844], (page) => page.click('button:text-is("left")'));
await take("page-check", [1280, 800], async (page) => {
  await stage(page, "Check");
  await page.click("details.group > summary >> nth=-1");
});
await take("page-build", [1280, 800], async (page) => {
  await stage(page, "Build");
  await page.fill(".slider input", "60");
});
await stop();
