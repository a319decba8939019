// What the page looks like, against pictures of it that were looked at: node --test, or LOOKS=new to take new ones.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import pixelmatch from "pixelmatch";
import { PNG } from "pngjs";
import { LAPTOP, open, PHONE, serve, stage, still, withPage } from "./browser.mjs";

/** Share of the pixels that may differ: letters are not drawn quite alike by every build of the browser. */
const TOLERANCE = 0.02;
const folder = fileURLToPath(new URL("looks/", import.meta.url));
const refused = fileURLToPath(new URL("../../build/", import.meta.url));
const example = readFileSync(new URL("../../examples/schoolhouse-side-door.toml", import.meta.url));

let server;
before(async () => void (server = await serve()));
after(() => server.stop());

for (const [size, width, stages] of [["phone", PHONE, ["Measure", "Check", "Cut"]], ["laptop", LAPTOP, ["Measure", "Buy", "Build"]]]) {
  for (const colours of ["light", "dark"]) {
    test(`on a ${size} in ${colours} colours the stages look as they did`, () =>
      withPage(
        server.address,
        width,
        async (page) => {
          await open(page, "schoolhouse.toml", example);
          for (const name of stages) {
            await stage(page, name);
            await page.waitForFunction(() => document.querySelector(".drawing svg"));
            const shot = await still(page);
            const picture = `${size}-${colours}-${name.toLowerCase()}.png`;
            const file = folder + picture;
            if (process.env.LOOKS === "new") {
              mkdirSync(folder, { recursive: true });
              writeFileSync(file, shot);
              continue;
            }
            const now = PNG.sync.read(shot);
            const then = PNG.sync.read(readFileSync(file));
            assert.deepEqual([now.width, now.height], [then.width, then.height], name);
            const differing = pixelmatch(now.data, then.data, undefined, now.width, now.height, { threshold: 0.2 });
            if (differing > TOLERANCE * now.width * now.height) writeFileSync(refused + picture, shot);
            assert.ok(differing <= TOLERANCE * now.width * now.height, `${name}: ${differing} pixels differ: see build/${picture}`);
          }
        },
        { colorScheme: colours },
      ));
  }
}
