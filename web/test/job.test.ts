import { describe, expect, test } from "vitest";
import { changed, redone, started, undone } from "../src/job/history";
import { archiveOf, filesOf, recordOf, textOf } from "../src/job/packet";
import { type OrderLine, problemsOf } from "../src/job/plan";
import { isOwnPrice, withPrice } from "../src/job/prices";
import { migrated, newRecord, planned, valueAt, withValue } from "../src/job/record";
import { inchesOf, inchesText, tapeOf, tapeText, withUnit } from "../src/job/tape";
import { inputAt, schemaOf, startOf } from "../src/view/schema";

describe("tape", () => {
  test("every sixteenth up to forty feet is read back as it was written", () => {
    for (let n = 0; n <= 40 * 192; ++n) expect(inchesOf(tapeText(tapeOf(n / 16)))).toBe(n / 16);
  });
  test.each([
    ["3' 11 3/8\"", 47.375],
    ["47 3/8 in", 47.375],
    ["7 ft", 84],
    ["3/8", 0.375],
    // SOURCE an inch is 25.4 mm by definition.
    ["254 mm", 10],
    ["1.27 m", 50],
  ])("%s", (text, inches) => expect(inchesOf(text)).toBeCloseTo(inches, 12));
  test("a bare number is in the job's own unit", () => {
    expect(inchesOf("1240", true)).toBeCloseTo(1240 / 25.4, 12);
    expect(inchesOf("7 1/8", true)).toBe(7.125);
    expect([withUnit("1240", true), withUnit("61 1/4", false), withUnit("3 ft", true)]).toEqual(["1240 mm", "61 1/4 in", "3 ft"]);
  });
  test.each(["", "abc", "3/0", "'", "1 2 3"])("'%s' is left to the engine to explain", (text) => expect(inchesOf(text)).toBeUndefined());
  test("fractions are in their lowest terms", () => expect(inchesText(7.25)).toBe('7 1/4"'));
});

describe("record", () => {
  const record = newRecord("a", "Lane end");
  test("a value is put into a copy", () => {
    const job = withValue(record.job, "ground.middle[1].down", "4 ft");
    expect(valueAt(job, "ground.middle[1].down")).toBe("4 ft");
    expect(valueAt(record.job, "ground.middle[1].down")).toBe("3 ft 2 in");
  });
  test("groups that are not there are made, and keys taken away again", () => {
    const job = withValue(record.job, "deck.overhang", "2 in");
    expect(withValue(job, "deck.overhang", undefined).deck).toEqual({});
    expect(valueAt(withValue(record.job, "ground.middle[0]", undefined), "ground.middle")).toHaveLength(1);
  });
  test("the picked stair is written into what is planned, not into what was typed", () => {
    const picked = { ...record, pick: { words: "five", sets: { "stair.risers": 5, "stringers.mid_supports": null } } };
    expect(planned(picked).stair?.risers).toBe(5);
    expect(picked.job.stair?.risers).toBeUndefined();
  });
  test("stored data of any kind give a record or nothing", () => {
    expect(migrated(JSON.parse(JSON.stringify(record)))).toEqual(record);
    expect(migrated({ id: "a", job: record.job })).toMatchObject({ open: [], pick: null, built: [] });
    for (const bad of [undefined, null, 7, "x", [], {}, { id: 1, job: {} }, { id: "a", job: { about: {} } }]) expect(migrated(bad)).toBeUndefined();
  });
});

test("undo and redo walk the same way back and forth", () => {
  let h = started(0);
  for (const n of [1, 2, 3]) h = changed(h, n);
  expect(undone(undone(h)).now).toBe(1);
  expect(redone(undone(h))).toEqual(h);
  expect(changed(undone(h), 9).future).toEqual([]);
  expect(undone(started(0)).now).toBe(0);
});

test("problems are found wherever an answer holds them, and an answer that is none is one", () => {
  expect(problemsOf('{"a":[{"place":"deck","wrong":"no","remedy":"yes"}]}')).toEqual([{ place: "deck", wrong: "no", remedy: "yes" }]);
  expect(problemsOf('{"ways":[{"words":"one lift"}],"collide":[{"input":"pad","words":"as it is"}]}').map((p) => p.wrong)).toEqual(["one lift", "as it is"]);
  expect(problemsOf("gone")[0]?.wrong).toBe("gone");
});

describe("files", () => {
  const record = newRecord("a", "Lane end");
  const bytes = (text: string) => new TextEncoder().encode(text);
  test("the engine's packet comes apart into its files", () => {
    expect(Object.entries(filesOf(bytes('{"a.csv":3,"b.svg":4}\nä1<b/>'))).map(([name, file]) => [name, textOf(file)])).toEqual([["a.csv", "ä1"], ["b.svg", "<b/>"]]);
  });
  test("a packet's archive gives the record back under another id", () => {
    const archive = archiveOf({ "job.json": bytes("{}") }, { ...record, built: ['7"'] });
    expect(recordOf("x.zip", archive, "b")).toEqual({ ...record, built: ['7"'], id: "b" });
  });
  test("job files of both kinds are read, and dates stay text", () => {
    expect(recordOf("x.toml", bytes('[about]\nname = "Mill"\ndate = 2026-05-09\n[stair]\nwidth = "40 in"\n'), "b")).toMatchObject({ id: "b", job: { about: { name: "Mill", date: "2026-05-09" }, stair: { width: "40 in" } } });
    expect(recordOf("x.json", bytes('{"about":{"name":"Mill"}}'), "b")).toMatchObject({ job: { about: { name: "Mill" } } });
    expect(recordOf("plan.json", bytes('{"format":"x","job":{"about":{"name":"Mill"}}}'), "b")).toMatchObject({ job: { about: { name: "Mill" } } });
  });
  test.each([["x.json", "{"], ["x.toml", "= 3"], ["x.zip", "PK"], ["x.json", "[1]"], ["x.txt", ""]])("%s of '%s' is refused with a reason", (name, text) =>
    expect(recordOf(name, bytes(text), "b")).toMatchObject({ place: name, wrong: expect.stringMatching(/./), remedy: expect.stringMatching(/./) }));
});

describe("prices", () => {
  const record = newRecord("a", "Lane end");
  const line: OrderLine = { group: "lumber", item: "2x6 x 8 ft", key: "2x6", length: 96, use: "", package: "board", quantity: 2, unit_price: 900, price: 1800, note: "" };
  test("a board's price is that of its length", () => {
    const job = withPrice(withPrice(record.job, line, 8), line, 8.5);
    expect(valueAt(job, "yard.prices")).toEqual([{ item: "2x6", length: "96 in", price: 8.5 }]);
    expect([isOwnPrice(job, line), isOwnPrice(job, { ...line, length: 120 })]).toEqual([true, false]);
    expect(valueAt(withPrice(job, line, undefined), "yard.prices")).toBeUndefined();
  });
  test("what the job's yard has is priced there", () => {
    const job = withValue(record.job, "yard.stock", [{ section: "2x6", length: "8 ft", price: 9 }]);
    expect(valueAt(withPrice(job, line, 8.5), "yard.stock[0].price")).toBe(8.5);
    expect(withPrice(job, line, undefined)).toEqual(job);
  });
  test("anything else is priced by its key", () => {
    const bolt = { ...line, group: "hardware", key: "bolt-1/2x7" };
    const job = withPrice(withPrice(record.job, bolt, 2), bolt, 3);
    expect(valueAt(job, "yard.prices")).toEqual([{ item: "bolt-1/2x7", price: 3 }]);
    expect(valueAt(withPrice(job, bolt, undefined), "yard.prices")).toBeUndefined();
  });
  test("a ready-cut stringer is priced where the job lists it", () => {
    const job = withValue(record.job, "yard.ready_cut", [{ name: "four", price: 20 }]);
    expect(valueAt(withPrice(job, { ...line, group: "stringers", key: "four" }, 25), "yard.ready_cut[0].price")).toBe(25);
  });
});

describe("schema", () => {
  const schema = schemaOf(
    JSON.stringify({
      properties: {
        deck: { properties: { overhang: { $ref: "#/$defs/length", default: "1 in", "x-range": "0 in to 12 in" } } },
        yard: {
          properties: {
            stock: { type: "array", items: { required: ["section", "length"], properties: { section: { type: "string", "x-form": "section" }, length: { $ref: "#/$defs/length", "x-range": "12 in to 480 in" }, available: { type: "integer", minimum: 0, maximum: 9 } } } },
            names: { type: "array", items: { type: "string" } },
          },
        },
      },
    }),
  );
  test("single inputs, lists and lists of words are told apart", () => {
    expect([...schema.inputs.keys()]).toEqual(["deck.overhang", "yard.stock[].section", "yard.stock[].length", "yard.stock[].available", "yard.names"]);
    expect(schema.inputs.get("yard.names")?.kind).toBe("texts");
    expect(schema.lists.map((list) => list.key)).toEqual(["yard.stock"]);
  });
  test("an entry's input is found by its number", () => expect(inputAt(schema, "yard.stock[3].length")).toMatchObject({ key: "yard.stock[3].length", kind: "length" }));
  test("a new entry holds what it must", () => expect(schema.lists.map((list) => startOf(list, 1))).toEqual([{ section: "2x6" }]));
});
