// Asks the engine. One that fails is started anew, and the question asked once more.
import wasm from "../../../build/wasm/wasm/engine.wasm?url";
import type { Answer, Call, Outcome } from "./messages";

export interface Found {
  outcome: Outcome;
  text: string;
  file?: ArrayBuffer;
}

interface Waiting {
  call: Call;
  job: string;
  numbers: number[];
  tries: number;
  done: (found: Found) => void;
  failed: (error: Error) => void;
}

/** How often a question is asked of a new engine before it is given up. */
const TRIES = 2;

export class EngineClient {
  private worker: Worker | undefined;
  private readonly waiting = new Map<number, Waiting>();
  private next = 1;

  constructor(private readonly start: () => Worker) {}

  ask(call: Call, job: string, ...numbers: number[]): Promise<Found> {
    return new Promise((done, failed) => this.send({ call, job, numbers, tries: 0, done, failed }));
  }

  /** Gives up what is being asked: a search that nobody waits for any more. */
  drop(): void {
    if (this.waiting.size === 0) return;
    this.worker?.terminate();
    this.worker = undefined;
    this.waiting.clear();
  }

  private send(question: Waiting): void {
    question.tries += 1;
    const id = this.next++;
    this.waiting.set(id, question);
    this.engine().postMessage({ id, call: question.call, job: question.job, numbers: question.numbers });
  }

  private engine(): Worker {
    if (this.worker) return this.worker;
    const worker = this.start();
    worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      const question = this.waiting.get(data.id);
      if (!question) return;
      if (data.outcome === "broken") return this.restart(data.text);
      this.waiting.delete(data.id);
      question.done({ ...data, outcome: data.outcome });
    };
    worker.onerror = (event) => worker === this.worker && this.restart(event.message || "the engine stopped");
    this.worker = worker;
    return worker;
  }

  private restart(why: string): void {
    this.worker?.terminate();
    this.worker = undefined;
    const open = [...this.waiting.values()];
    this.waiting.clear();
    for (const question of open) {
      if (question.tries < TRIES) this.send(question);
      else question.failed(new Error(why));
    }
  }
}

/** The engine compiled, while the page is still being put together; its workers share it. */
let compiled: Promise<WebAssembly.Module> | undefined;
const module = () => (compiled ??= WebAssembly.compileStreaming(fetch(wasm)));
if (typeof Worker !== "undefined") void module().catch(() => {});

function start(): Worker {
  const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
  module().then(
    (engine) => worker.postMessage(engine),
    (error: unknown) => {
      compiled = undefined;
      worker.dispatchEvent(new ErrorEvent("error", { message: `the engine did not arrive (${String(error)})` }));
    },
  );
  return worker;
}
/** Plans and drawings; searches have an engine of their own, so that they hold up nothing. */
export const engine = new EngineClient(start);
export const searcher = new EngineClient(start);
