// The engine in a thread of its own: the page stays quick whatever it asks. The first message is the compiled engine.
import { loadEngine } from "../../../wasm/engine.mjs";
import type { Answer, Call, Outcome, Question } from "./messages";

let arrived: (engine: WebAssembly.Module) => void;
const engine = new Promise<WebAssembly.Module>((arrive) => (arrived = arrive)).then(loadEngine);

/** Calls whose answer is a file. */
const FILES: Call[] = ["model", "packet"];

self.onmessage = async ({ data }: MessageEvent<WebAssembly.Module | Question>) => {
  if (data instanceof WebAssembly.Module) return arrived(data);
  const say = (answer: Omit<Answer, "id">) =>
    self.postMessage({ id: data.id, ...answer } satisfies Answer, { transfer: answer.file ? [answer.file] : [] });
  try {
    const ask = await engine;
    const found = ask(data.call, data.job, ...data.numbers);
    const outcome = found.outcome as Outcome;
    if (FILES.includes(data.call) && outcome === "done") say({ outcome, text: "", file: found.bytes.buffer });
    else say({ outcome, text: found.answer });
  } catch (error) {
    say({ outcome: "broken", text: String(error) });
  }
};
