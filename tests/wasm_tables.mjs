// The engine in WebAssembly agrees with the tables of truth: the tests that read tests/tables, compiled with it.
//
//   node --test tests/wasm_tables.mjs     PROGRAMS: the folder of test_*.wasm

import assert from "node:assert/strict";
import { closeSync, mkdtempSync, openSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { WASI } from "node:wasi";

const { PROGRAMS } = process.env;
const tables = new URL("tables/", import.meta.url).pathname;
const programs = readdirSync(PROGRAMS).filter((name) => /^test_.*\.wasm$/.test(name));

let scratch;
before(() => (scratch = mkdtempSync(join(tmpdir(), "pitchboard-"))));
after(() => rmSync(scratch, { recursive: true }));

/** Runs that program. It sees the tables, and no other file. @returns how it ended (0: well), and all that it wrote */
async function run(name) {
  const log = join(scratch, name);
  const out = openSync(log, "w");
  const wasi = new WASI({ version: "preview1", args: [name], preopens: { [tables]: tables }, stdout: out, stderr: out });
  const module = await WebAssembly.compile(readFileSync(join(PROGRAMS, name)));
  const instance = await WebAssembly.instantiate(module, wasi.getImportObject());
  let end;
  try {
    end = wasi.start(instance);
  } catch (trap) {
    end = trap;
  }
  closeSync(out);
  return { end, wrote: readFileSync(log, "utf8") };
}

test("there are programs", () => assert.ok(programs.length > 0));

for (const name of programs) {
  test(`${name} passes`, async (t) => {
    const { end, wrote } = await run(name);
    assert.equal(end, 0, wrote);
    const [, passed] = wrote.match(/^\[  PASSED  \] (\d+) tests?\.$/m) ?? assert.fail(wrote);
    assert.ok(passed > 0, wrote);
    t.diagnostic(`${passed} tests`);
  });
}
