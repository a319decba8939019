// The engine in a thread of its own: the page stays quick whatever it asks.
import wasm from "../../../build/wasm/wasm/engine.wasm?url";
import { loadEngine } from "../../../wasm/engine.mjs";
import type { Answer, Outcome, Question } from "./messages";

const engine = fetch(wasm)
  .then((response) => {
    if (!response.ok) throw new Error(`the engine did not arrive (${response.status})`);
    return response.arrayBuffer();
  })
  .then(loadEngine);

self.onmessage = async ({ data }: MessageEvent<Question>) => {
  const say = (answer: Omit<Answer, "id">) => self.postMessage({ id: data.id, ...answer } satisfies Answer);
  try {
    const ask = await engine;
    const { outcome, answer } = ask(data.call, data.job, ...data.numbers);
    say({ outcome: outcome as Outcome, text: answer });
  } catch (error) {
    say({ outcome: "broken", text: String(error) });
  }
};
