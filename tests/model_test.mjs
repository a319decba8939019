// The 3-D model against outside witnesses: the Khronos Group's glTF validator, and the solid geometry of the manifold-3d
// library on the triangles that are in the file. What they are held against is the plan's JSON.
//
//   node --test tests/model_test.mjs     PITCHBOARD, RANDOM_PLANS: the native programs; needs web/node_modules

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import validator from "../web/node_modules/gltf-validator/index.js";
import loadManifold from "../web/node_modules/manifold-3d/manifold.js";

const { PITCHBOARD, RANDOM_PLANS } = process.env;
const examples = new URL("../examples/", import.meta.url).pathname;
const RANDOM_JOBS = 100;
const METRES_PER_INCH = 0.0254;
/** Places are written to a micrometre. */
const PLACE = 2e-6;
/** Parts whose shared volume is thinner than this touch. */
const TOUCH = 2 * PLACE;
/** Two pieces of bought metal give way by as much as the engine's own clash test allows all parts. */
const METAL_TOUCH = METRES_PER_INCH / 64;
/** What floats may do to the volume of thin sheet metal. */
const VOLUME = 1e-5;

let Manifold, Mesh, scratch;
before(async () => {
  const library = await loadManifold();
  library.setup();
  ({ Manifold, Mesh } = library);
  scratch = mkdtempSync(join(tmpdir(), "pitchboard-"));
});
after(() => rmSync(scratch, { recursive: true }));

/** The file's JSON, and its accessors' numbers. */
function read(glb) {
  const view = new DataView(glb.buffer, glb.byteOffset, glb.byteLength);
  const length = view.getUint32(12, true);
  const json = JSON.parse(glb.subarray(20, 20 + length).toString("utf8"));
  const data = 20 + length + 8;
  const numbers = (index) => {
    const accessor = json.accessors[index];
    const from = data + json.bufferViews[accessor.bufferView].byteOffset + accessor.byteOffset;
    const width = { 5123: 2, 5125: 4, 5126: 4 }[accessor.componentType];
    const get = { 5123: "getUint16", 5125: "getUint32", 5126: "getFloat32" }[accessor.componentType];
    const count = accessor.count * { SCALAR: 1, VEC3: 3 }[accessor.type];
    return Array.from({ length: count }, (_, i) => view[get](from + i * width, true));
  };
  return { json, numbers };
}

/** The triangles of one mesh, corners at the same place made one. */
function triangles({ json, numbers }, mesh) {
  const [primitive] = json.meshes[mesh].primitives;
  const places = numbers(primitive.attributes.POSITION);
  const known = new Map();
  const corners = [];
  const corner = numbers(primitive.indices).map((i) => {
    const place = places.slice(3 * i, 3 * i + 3);
    const key = place.join();
    if (!known.has(key)) {
      known.set(key, corners.length);
      corners.push(place);
    }
    return known.get(key);
  });
  return { corners, corner };
}

const solid = ({ corners, corner }) =>
  new Manifold(new Mesh({ numProp: 3, vertProperties: Float32Array.from(corners.flat()), triVerts: Uint32Array.from(corner) }));

/** The nodes below the group of that name, by their own names. */
function nodesOf({ json }) {
  const out = new Map();
  for (const group of json.scenes[0].nodes.map((i) => json.nodes[i])) {
    for (const child of group.children ?? []) {
      const node = json.nodes[child];
      assert.ok(!out.has(node.name), `${node.name} is there twice`);
      out.set(node.name, { ...node, group: group.name });
    }
  }
  return out;
}

/** A place of the frame, in inches, as the model has it: x across, y up, z out from the house. */
const inModel = ([x, y, z]) => [y, z, x].map((v) => v * METRES_PER_INCH);

/** Every corner of a part, from the plan's own outline and span. */
function cornersOf({ normal, outline, span }) {
  const place = { x: (a, b, n) => [n, a, b], y: (a, b, n) => [a, n, b], z: (a, b, n) => [a, b, n] }[normal];
  return span.flatMap((n) => outline.map(([a, b]) => inModel(place(a, b, n))));
}

/** The shoelace formula, times the span. */
function volumeOf({ outline, span }) {
  let twice = 0;
  outline.forEach(([a, b], i) => {
    const [c, d] = outline[(i + 1) % outline.length];
    twice += a * d - c * b;
  });
  return (Math.abs(twice) / 2) * (span[1] - span[0]) * METRES_PER_INCH ** 3;
}

/** The foot of a rail post is let into its own footing, and into the landing's layers over that. */
function letIn(marks, post, ground) {
  const footing = `${post.mark}F`;
  return post.kind === "post" && marks.has(footing) && (ground.mark === footing || ground.kind === "landing");
}

/** A direction turned by a quaternion. */
function turned([x, y, z, w], [a, b, c]) {
  const [p, q, r] = [2 * (y * c - z * b), 2 * (z * a - x * c), 2 * (x * b - y * a)];
  return [a + w * p + y * r - z * q, b + w * q + z * p - x * r, c + w * r + x * q - y * p];
}

function near(actual, wanted, allowed, what) {
  actual.forEach((v, i) => assert.ok(Math.abs(v - wanted[i]) <= allowed, `${what}: ${actual} for ${wanted}`));
}

/** The parts' bodies, each held against the plan. */
function solidsOf(model, parts) {
  const nodes = nodesOf(model);
  return parts.map((part) => {
    const node = nodes.get(part.mark);
    assert.deepEqual(node.extras, { kind: part.kind, use: part.use, step: part.step, side: part.side });
    assert.equal(node.group, part.kind);
    const mesh = triangles(model, node.mesh);
    for (const corner of cornersOf(part.solid)) {
      assert.ok(
        mesh.corners.some((c) => c.every((v, axis) => Math.abs(v + node.translation[axis] - corner[axis]) <= PLACE)),
        `${part.mark} lacks its corner ${corner}`,
      );
    }
    const body = solid(mesh);
    assert.equal(body.status(), "NoError", part.mark);
    assert.equal(body.genus(), 0, part.mark);
    const wanted = volumeOf(part.solid);
    assert.ok(Math.abs(body.volume() - wanted) <= VOLUME * wanted, `${part.mark}: ${body.volume()} for ${wanted}`);
    return body.translate(node.translation);
  });
}

/** Every pair of parts in one place, in words, and how many pairs were near enough to be intersected. */
function overlapsOf(parts, solids) {
  const marks = new Set(parts.map(({ mark }) => mark));
  const boxes = solids.map((body) => body.boundingBox());
  const meet = (p, q) => [0, 1, 2].every((i) => Math.min(p.max[i], q.max[i]) - Math.max(p.min[i], q.min[i]) > TOUCH);
  const found = [];
  let pairs = 0;
  for (let i = 0; i < parts.length; ++i) {
    for (let j = 0; j < i; ++j) {
      const [p, q] = [parts[i], parts[j]];
      if (!meet(boxes[i], boxes[j]) || (p.kind === "there already" && q.kind === "there already")) continue;
      if (letIn(marks, p, q) || letIn(marks, q, p)) continue;
      ++pairs;
      const shared = solids[i].intersect(solids[j]);
      // A flat body's volume over half its surface is its thickness.
      const thickness = shared.isEmpty() ? 0 : (2 * shared.volume()) / shared.surfaceArea();
      const allowed = p.kind === "connector" && q.kind === "connector" ? METAL_TOUCH : TOUCH;
      if (thickness > allowed) found.push(`${p.mark} and ${q.mark} share ${(thickness / METRES_PER_INCH).toFixed(4)} in`);
      shared.delete();
    }
  }
  return { found, pairs };
}

/** Holds the model against its plan; the count of pairs of parts that were intersected. */
function compare(glb, { frame: { parts, fasteners } }) {
  const model = read(glb);
  const nodes = nodesOf(model);
  assert.deepEqual([...nodes.keys()].sort(), [...parts, ...fasteners].map(({ mark }) => mark).sort());
  for (const { mark, item, head, direction, reason, joins } of fasteners) {
    const node = nodes.get(mark);
    assert.equal(node.group, "fasteners");
    assert.deepEqual([node.extras.item, node.extras.use, node.extras.joins], [item, reason, joins]);
    near(node.translation, inModel(head), PLACE, mark);
    const to = inModel(direction).map((v) => v / METRES_PER_INCH);
    near(turned(node.rotation, [0, 1, 0]), to, 1e-5, mark);
  }
  for (const mesh of new Set(fasteners.map(({ mark }) => nodes.get(mark).mesh))) {
    const body = solid(triangles(model, mesh));
    assert.equal(body.status(), "NoError", `mesh ${mesh}`);
    body.delete();
  }
  const solids = solidsOf(model, parts);
  const { found, pairs } = overlapsOf(parts, solids);
  assert.deepEqual(found, []);
  for (const body of solids) body.delete();
  return pairs;
}

const planOf = (name) => JSON.parse(readFileSync(join(scratch, name), "utf8"));

for (const name of readdirSync(examples).filter((file) => file.endsWith(".toml"))) {
  test(`${name}: valid, every part a solid of its volume in its place, none in another`, async (t) => {
    const folder = join(scratch, name);
    execFileSync(PITCHBOARD, ["plan", join(examples, name), "-o", folder]);
    const glb = readFileSync(join(folder, "model.glb"));
    const { issues } = await validator.validateBytes(new Uint8Array(glb));
    for (const { code, message, pointer } of issues.messages) t.diagnostic(`${code} ${pointer} ${message}`);
    assert.deepEqual([issues.numErrors, issues.numWarnings, issues.truncated], [0, 0, false]);
    assert.ok(compare(glb, planOf(join(name, "plan.json"))) > 0);
  });
}

test(`${RANDOM_JOBS} random jobs: every part a solid of its volume in its place, none in another`, (t) => {
  execFileSync(RANDOM_PLANS, [RANDOM_JOBS, scratch]);
  let models = 0;
  let pairs = 0;
  for (let i = 0; i < RANDOM_JOBS; ++i) {
    const file = join(scratch, `${i}.model.glb`);
    if (!existsSync(file)) continue;
    try {
      pairs += compare(readFileSync(file), planOf(`${i}.plan.json`));
    } catch (error) {
      error.message = `job ${i}: ${error.message}`;
      throw error;
    }
    ++models;
  }
  t.diagnostic(`${models} models, ${pairs} pairs of parts intersected`);
  assert.ok(models > RANDOM_JOBS / 2);
});

test("a tread a thousandth of an inch too low is found in the stringers", () => {
  const name = "low-farmhouse-step.toml";
  const folder = join(scratch, "lowered");
  execFileSync(PITCHBOARD, ["plan", join(examples, name), "-o", folder]);
  const { parts } = planOf(join("lowered", "plan.json")).frame;
  const solids = solidsOf(read(readFileSync(join(folder, "model.glb"))), parts);
  const tread = parts.findIndex(({ kind }) => kind === "tread");
  solids[tread] = solids[tread].translate([0, -METRES_PER_INCH / 1000, 0]);
  const { found } = overlapsOf(parts, solids);
  assert.ok(found.length > 0 && found.every((words) => words.includes(parts[tread].mark)), found.join());
});
