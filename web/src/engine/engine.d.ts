declare module "*/wasm/engine.mjs" {
  export function loadEngine(
    wasm: BufferSource | WebAssembly.Module,
  ): Promise<(call: string, question: string, ...numbers: number[]) => { outcome: string; bytes: Uint8Array<ArrayBuffer>; answer: string }>;
}
