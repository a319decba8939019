// The engine for JavaScript: loads engine.wasm and asks it. Runs in browsers, workers and node.

/** What a call came to, as engine.cpp counts it. */
const OUTCOMES = ["done", "bad input", "impossible"];

const SUCCESS = 0;
const NO_SUCH_FILE = 8;

/** The part of the system interface that the engine's library asks for: no files, no environment. */
function system(memory) {
  const put = (at, value) => new DataView(memory().buffer).setUint32(at, value, true);
  return {
    environ_get: () => SUCCESS,
    environ_sizes_get: (count, size) => {
      put(count, 0);
      put(size, 0);
      return SUCCESS;
    },
    fd_close: () => NO_SUCH_FILE,
    fd_seek: () => NO_SUCH_FILE,
    fd_write: () => NO_SUCH_FILE,
    proc_exit: (code) => {
      throw new Error(`the engine stopped with ${code}`);
    },
  };
}

/**
 * @param {BufferSource | WebAssembly.Module} wasm bytes of engine.wasm, or the compiled module
 * @returns {Promise<(call: string, question: string, ...numbers: number[]) =>
 *   {outcome: string, bytes: Uint8Array, answer: string}>} asks one of the engine's calls; `answer` is the bytes as text
 */
export async function loadEngine(wasm) {
  let exported;
  const imports = { wasi_snapshot_preview1: system(() => exported.memory) };
  const module = wasm instanceof WebAssembly.Module ? wasm : await WebAssembly.compile(wasm);
  exported = (await WebAssembly.instantiate(module, imports)).exports;
  exported._initialize();
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  return (call, question, ...numbers) => {
    const asked = encoder.encode(question);
    const at = exported.room(asked.length);
    new Uint8Array(exported.memory.buffer, at, asked.length).set(asked);
    const outcome = OUTCOMES[exported[call](...numbers)];
    const bytes = new Uint8Array(exported.memory.buffer, exported.answer(), exported.answer_size()).slice();
    return {
      outcome,
      bytes,
      get answer() {
        return decoder.decode(bytes);
      },
    };
  };
}
