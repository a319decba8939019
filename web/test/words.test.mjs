import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { loadEngine } from "../../wasm/engine.mjs";
import { SPANISH } from "../src/spanish";
import { schemaOf } from "../src/view/schema";

const ask = await loadEngine(readFileSync(new URL("../../build/wasm/wasm/engine.wasm", import.meta.url)));
const schema = schemaOf(ask("schema", "").answer);

describe("in Spanish", () => {
  test("every input has its sentence and its choices", () => {
    // What reads alike in both languages, or is a measure, stands as it is.
    const alike = new Set(["no", "1/2 in", "5/8 in"]);
    const inputs = [...schema.inputs.values()];
    expect(inputs.length).toBeGreaterThan(120);
    const spoken = [...inputs.flatMap((input) => [input.description, ...input.choices]), ...schema.lists.map((list) => list.description)];
    expect(spoken.filter((words) => !alike.has(words) && SPANISH[words] === undefined)).toEqual([]);
  });
});
