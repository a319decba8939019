// The engine in WebAssembly gives the bytes that the native one gives: plans, models, searches and problems.
//
//   node --test tests/wasm_test.mjs     ENGINE, PITCHBOARD, RANDOM_PLANS: engine.wasm and the native programs

import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { loadEngine } from "../wasm/engine.mjs";

const { ENGINE, PITCHBOARD, RANDOM_PLANS } = process.env;
const examples = new URL("../examples/", import.meta.url).pathname;
const jobs = readdirSync(examples).filter((name) => name.endsWith(".toml"));
const RANDOM_JOBS = 200;

let ask, scratch;
before(async () => {
  ask = await loadEngine(readFileSync(ENGINE));
  scratch = mkdtempSync(join(tmpdir(), "pitchboard-"));
});
after(() => rmSync(scratch, { recursive: true }));

/** The packet of that example, planned by the native program. */
function packet(name) {
  const folder = join(scratch, name);
  execFileSync(PITCHBOARD, ["plan", join(examples, name), "-o", folder]);
  return folder;
}

for (const name of jobs) {
  test(`${name} is planned alike`, () => {
    const folder = packet(name);
    const { outcome, answer } = ask("plan", readFileSync(join(folder, "job.json"), "utf8"));
    assert.equal(outcome, "done");
    assert.ok(answer === readFileSync(join(folder, "plan.json"), "utf8"));
    assert.deepEqual(JSON.parse(ask("problems", readFileSync(join(folder, "job.json"), "utf8")).answer), []);
    const model = ask("model", readFileSync(join(folder, "job.json"), "utf8"));
    assert.equal(model.outcome, "done");
    assert.ok(readFileSync(join(folder, "model.glb")).equals(model.bytes));
  });
}

test(`${RANDOM_JOBS} random jobs are planned alike`, () => {
  execFileSync(RANDOM_PLANS, [RANDOM_JOBS, scratch]);
  const outcomes = { done: 0, impossible: 0 };
  for (let i = 0; i < RANDOM_JOBS; ++i) {
    const { outcome, answer } = ask("plan", readFileSync(join(scratch, `${i}.job.json`), "utf8"));
    ++outcomes[outcome];
    assert.ok(answer === readFileSync(join(scratch, `${i}.plan.json`), "utf8"), `job ${i}`);
  }
  assert.ok(outcomes.done > RANDOM_JOBS / 2, JSON.stringify(outcomes));
});

for (const name of ["low-farmhouse-step.toml", "garden-studio.toml"]) {
  test(`${name} has the same options`, () => {
    const job = join(packet(name), "job.json");
    const native = execFileSync(PITCHBOARD, ["options", job, "--json"], { encoding: "utf8" });
    assert.ok(ask("options", readFileSync(job, "utf8")).answer === native);
  });
}

test("bad input comes back as problems, and the engine goes on", () => {
  for (const text of ["", "{", "[]", '{"stair": {"width": "36", "riserz": 3}}', "\u0000", "[".repeat(100000)]) {
    const { outcome, answer } = ask("plan", text);
    assert.equal(outcome, "bad input", text.slice(0, 40));
    assert.equal(ask("problems", text).answer, answer);
    const problems = JSON.parse(answer);
    assert.ok(problems.length > 0);
    for (const problem of problems) assert.deepEqual(Object.keys(problem), ["place", "remedy", "wrong"]);
  }
  const { answer } = ask("plan", '{"stair": {"width": "36", "riserz": 3}}');
  const places = JSON.parse(answer).map((problem) => problem.place);
  assert.ok(places.includes("stair.width") && places.includes("stair.riserz"), places.join());
});

test("a code pack that nobody knows is bad input to every call", () => {
  const job = JSON.parse(readFileSync(join(packet("schoolhouse-side-door.toml"), "job.json"), "utf8"));
  job.place.pack = "nowhere-1";
  for (const call of ["problems", "plan", "options", "side", "packet", "model"]) {
    const { outcome, answer } = ask(call, JSON.stringify(job), 300, 300, 0);
    assert.equal(outcome, "bad input", call);
    assert.deepEqual(JSON.parse(answer).map((problem) => problem.place), ["place.pack"], call);
  }
});

test("the packet's files equal those that the program writes", () => {
  const folder = packet("schoolhouse-side-door.toml");
  const { outcome, bytes } = ask("packet", readFileSync(join(folder, "job.json"), "utf8"), 0);
  assert.equal(outcome, "done");
  let at = bytes.indexOf(10) + 1;
  const files = Object.entries(JSON.parse(new TextDecoder().decode(bytes.subarray(0, at))));
  for (const [name, size] of files) {
    assert.ok(readFileSync(join(folder, name)).equals(bytes.subarray(at, at + size)), name);
    at += size;
  }
  assert.equal(at, bytes.length);
  const written = readdirSync(folder, { recursive: true }).filter((name) => name.includes("."));
  const ofTheProgramAlone = ["calculation.pdf", "packet.json", "plan.pdf"];
  assert.deepEqual(files.map(([name]) => name).concat(ofTheProgramAlone).sort(), written.sort());
});

test("a job that nothing fits comes back with what collides", () => {
  const job = JSON.parse(readFileSync(join(packet("schoolhouse-side-door.toml"), "job.json"), "utf8"));
  job.room = { ...job.room, run_at_most: "2 ft" };
  const file = join(scratch, "short.json");
  writeFileSync(file, JSON.stringify(job));
  const { outcome, answer } = ask("plan", JSON.stringify(job));
  const native = spawnSync(PITCHBOARD, ["plan", file, "--json"], { encoding: "utf8" });
  assert.equal(outcome, "impossible");
  assert.ok(answer === native.stdout, native.stderr);
});
