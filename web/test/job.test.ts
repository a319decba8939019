import { describe, expect, test } from "vitest";
import { changed, redone, started, undone } from "../src/job/history";
import { problemsOf } from "../src/job/plan";
import { migrated, newRecord, planned, valueAt, withValue } from "../src/job/record";
import { inchesOf, inchesText, tapeOf, tapeText } from "../src/job/tape";
import { orderCsv } from "../src/stage/work";

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

// SOURCE RFC 4180: fields with commas, quotes or line breaks are quoted, quotes doubled, lines end in CR LF.
test("an order's cells are quoted where they have to be", () => {
  const line = { group: "lumber", item: '2x8, "long"', use: "a", quantity: 2, unit_price: 1490, price: 2980, note: "" };
  expect(orderCsv([line], "USD").split("\r\n")[1]).toBe('lumber,"2x8, ""long""",a,2,14.90,29.80,USD');
});
