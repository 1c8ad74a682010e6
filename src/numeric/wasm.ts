/** Compiled kernels (`kernels/`) kept as text: loaded at once, without waiting, or not at all. */

/** What is used of WebAssembly; the pure rooms are compiled without the types of any host. */
interface Wasm {
  readonly Memory: new (size: { initial: number }) => WasmMemory;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
}
interface WasmMemory {
  readonly buffer: ArrayBuffer;
  grow(pages: number): number;
}
declare const WebAssembly: Wasm | undefined;

/** Bytes of a page of WebAssembly memory. */
const PAGE = 65_536;

/** A kernel and the memory that it imports. */
export interface WasmKernel<Exports> {
  readonly exports: Exports;
  /**
   * The kernel's memory, of so many bytes or more. Growing voids every view of the earlier buffer, so
   * a caller keeps the buffer with its views and compares.
   */
  memory(bytes: number): ArrayBuffer;
}

/**
 * Loads a kernel, compiled with `--importMemory`.
 *
 * @param base64 the compiled module.
 * @param imports what it calls back, besides its memory.
 * @returns null where the engine cannot run it (no WebAssembly, no SIMD, forbidden by the page's
 * policy): the caller then goes on with its plain form.
 * @example loadKernel('no module') // null
 */
export function loadKernel<Exports>(
  base64: string,
  imports: Readonly<Record<string, (...values: number[]) => number>> = {},
): WasmKernel<Exports> | null {
  if (typeof WebAssembly === 'undefined') return null;
  try {
    const memory = new WebAssembly.Memory({ initial: 1 });
    const module = new WebAssembly.Module(decodeBase64(base64));
    const instance = new WebAssembly.Instance(module, { env: { ...imports, memory } });
    return {
      // The module is our own: the caller names the exports of its source.
      exports: instance.exports as Exports,
      memory(bytes) {
        const missing = Math.ceil((bytes - memory.buffer.byteLength) / PAGE);
        if (missing > 0) memory.grow(missing);
        return memory.buffer;
      },
    };
  } catch {
    // What an engine refuses to compile it answers in many ways; all mean the same here.
    return null;
  }
}

/**
 * Bytes of a text in base64.
 *
 * @example [...decodeBase64('AGFzbQ==')] // [0, 97, 115, 109]
 * Source: RFC 4648, section 4.
 */
export function decodeBase64(text: string): Uint8Array {
  const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
  const plain = text.replaceAll('=', '');
  const out = new Uint8Array(Math.floor((plain.length * 3) / 4));
  let bits = 0;
  let held = 0;
  let n = 0;
  for (const letter of plain) {
    held = ((held << 6) | letters.indexOf(letter)) & 0xffffff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    out[n++] = (held >> bits) & 0xff;
  }
  return out;
}
