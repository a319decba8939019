// How large the page is and how soon it answers, against an empty page and the native program in the same run.
//
//   node web/test/bench.mjs     after script/run; `script/bench web` does both
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { browser, open, program, serve, stage } from "./browser.mjs";

const RUNS = 7;
const root = fileURLToPath(new URL("../..", import.meta.url));
const job = `${root}/examples/low-farmhouse-step.toml`;

const median = (times) => times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)];
const native = (...words) => {
  const from = performance.now();
  try {
    execFileSync(program, [...words, "--json"], { stdio: "pipe", maxBuffer: 1e9 });
  } catch {}
  return performance.now() - from;
};
async function repeated(run) {
  const times = [];
  for (let i = 0; i < RUNS; ++i) times.push(await run());
  return median(times);
}
const kept = (page) => page.waitForSelector("html[data-offline-ready]", { state: "attached", timeout: 60_000 });
/** Looked at more often than the tests do: it is timed. */
const planned = (page) =>
  page.waitForFunction(() => document.querySelector(".summary") && !document.querySelector(".summary").textContent.includes("…"), undefined, { polling: 5 });

const { address, stop } = await serve();
/** Milliseconds from opening the address in a browser that has never seen it. */
async function cold(where, done) {
  const { context, close } = await browser(390, 844, { solid: false });
  const page = await context.newPage();
  const from = performance.now();
  await page.goto(where);
  await done(page);
  const time = performance.now() - from;
  await close();
  return time;
}

const rows = [];
const put = (words, ms, of, base) => rows.push([words, `${ms.toFixed(0)} ms`, `${(ms / base).toFixed(1)} x ${of}`]);
const empty = await repeated(() => cold(`${address}icon.svg`, async () => {}));
put("an empty page, opened cold", empty, "itself", empty);
put("first plan, opened cold", await repeated(() => cold(address, planned)), "an empty page", empty);

const { context, close } = await browser(390, 844, { solid: false });
const page = await context.newPage();
await page.goto(address);
await planned(page);
await kept(page);
put("first plan, opened again", await repeated(async () => {
  const from = performance.now();
  await page.reload();
  await planned(page);
  return performance.now() - from;
}), "an empty page", empty);

const plan = await repeated(() => native("plan", job));
await open(page, "job.toml", readFileSync(job));
// From the keypad's button on, until the drawing and the plan are new ones.
const answers = [];
for (let i = 0; i < RUNS; ++i) {
  await page.click('text[data-input="ground.left[0].down"], text[data-input="ground.middle[0].down"] >> nth=0');
  await page.fill("dialog input", `${22 + i / 8} in`);
  answers.push(
    await page.evaluate(async () => {
      const seen = (node) => new Promise((done) => new MutationObserver((_, watch) => (watch.disconnect(), done(performance.now()))).observe(node, { childList: true, subtree: true, characterData: true }));
      const drawing = seen(document.querySelector(".drawing"));
      const from = performance.now();
      document.querySelector("dialog form").requestSubmit();
      const drawn = (await drawing) - from;
      while (document.querySelector(".summary").textContent.includes("…")) await new Promise((next) => setTimeout(next, 2));
      return { drawn, planned: performance.now() - from };
    }),
  );
}
put("a reading changed: the drawing", median(answers.map((a) => a.drawn)), "the program's plan", plan);
put("a reading changed: the plan", median(answers.map((a) => a.planned)), "the program's plan", plan);
const options = native("options", job);
const from = performance.now();
await stage(page, "Choose");
await page.waitForSelector(".cards > li", { timeout: 300_000 });
put("all stairs searched", performance.now() - from, "the program's search", options);
await close();
await stop();

const dist = `${root}/web/dist/assets/`;
const packed = (name) => gzipSync(readFileSync(dist + name), { level: 9 }).length;
for (const name of readdirSync(dist).filter((file) => /\.(wasm|js|css)$/.test(file)).sort()) rows.push([name.replace(/-[^-]*\./, "."), `${(packed(name) / 1000).toFixed(1)} KB`, "gzip"]);
const widths = [0, 1].map((column) => Math.max(...rows.map((row) => row[column].length)));
for (const [words, figure, ratio] of rows) console.log(`${words.padEnd(widths[0])}  ${figure.padStart(widths[1])}  ${ratio}`);
