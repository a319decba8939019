import { describe, expect, test } from "vitest";
import { EngineClient } from "../src/engine/client";
import type { Answer, Question } from "../src/engine/messages";

/** A worker that answers as it is told. */
class FakeWorker {
  onmessage: ((event: { data: Answer }) => void) | undefined;
  onerror: ((event: { message: string }) => void) | undefined;
  stopped = false;
  constructor(private readonly answers: (question: Question, worker: FakeWorker) => void) {}
  postMessage(question: Question): void {
    queueMicrotask(() => this.answers(question, this));
  }
  terminate(): void {
    this.stopped = true;
  }
}
function clientOf(...answers: ((question: Question, worker: FakeWorker) => void)[]): { client: EngineClient; started: FakeWorker[] } {
  const started: FakeWorker[] = [];
  const client = new EngineClient(() => {
    const worker = new FakeWorker(answers[started.length] ?? dies);
    started.push(worker);
    return worker as unknown as Worker;
  });
  return { client, started };
}
const answers = ({ id, job }: Question, worker: FakeWorker) => worker.onmessage?.({ data: { id, outcome: "done", text: `of ${job}` } });
const breaks = ({ id }: Question, worker: FakeWorker) => worker.onmessage?.({ data: { id, outcome: "broken", text: "trap" } });
const dies = (_: Question, worker: FakeWorker) => worker.onerror?.({ message: "gone" });

describe("an engine that fails", () => {
  for (const [name, fails] of [["traps", breaks], ["dies", dies]] as const)
    test(`and ${name} is started anew, and what was asked is asked again`, async () => {
      const { client, started } = clientOf(fails, answers);
      const found = await Promise.all([client.ask("plan", "a"), client.ask("side", "b")]);
      expect(found.map((f) => f.text)).toEqual(["of a", "of b"]);
      expect(started.map((worker) => worker.stopped)).toEqual([true, false]);
    });
  test("twice is given up, and the next question starts another", async () => {
    const { client, started } = clientOf(breaks, dies, answers);
    await expect(client.ask("plan", "a")).rejects.toThrow("gone");
    expect((await client.ask("plan", "b")).text).toBe("of b");
    expect(started).toHaveLength(3);
  });
});

test("a question that nobody waits for any more is dropped with its engine", async () => {
  const { client, started } = clientOf(() => {}, answers);
  void client.ask("options", "a");
  client.drop();
  expect((await client.ask("options", "b")).text).toBe("of b");
  expect(started.map((worker) => worker.stopped)).toEqual([true, false]);
});
