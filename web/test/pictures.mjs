// Pictures of the running page for the README: node web/test/pictures.mjs FOLDER, after script/run.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { browser, serve } from "./browser.mjs";

const folder = process.argv[2] ?? ".";
const demo = fileURLToPath(new URL("../../out/job.json", import.meta.url));
const { address, stop } = await serve();
for (const [name, stage, width, height] of [["page-measure", "Measure", 390, 844], ["page-check", "Check", 1280, 800]]) {
  const { context, close } = await browser(width, height);
  const page = await context.newPage();
  await page.goto(address);
  await page.waitForSelector(".summary");
  await page.click('header button:text-is("Jobs")');
  await page.setInputFiles('input[type="file"]', { name: "demo.json", mimeType: "application/json", buffer: readFileSync(demo) });
  await page.waitForFunction((title) => document.querySelector("h1").textContent === title, JSON.parse(readFileSync(demo, "utf8")).about.name);
  await page.click(`.stages button:text-is("${stage}")`);
  if (stage === "Measure") await page.click('button:text-is("left")');
  await page.waitForFunction(() => document.querySelector(".drawing svg") && !document.querySelector(".summary").textContent.includes("…"));
  await page.waitForTimeout(500);
  await page.screenshot({ path: `${folder}/${name}.png` });
  await close();
}
await stop();
