/** The compiled kernel (`kernels/lattice.ts`, SIMD), with the plain one's manners and numbers to rounding. */
import { decodeBase64 } from '../numeric/index.ts';
import { DIRECTIONS } from './lattice.ts';
import { LATTICE_WASM } from './lattice-wasm.ts';
import { RESOLVED, createPlainKernel } from './plain-kernel.ts';
import type { Kernel, KernelSetup } from './plain-kernel.ts';

/** What is used of WebAssembly; the pure rooms are compiled without the types of any host. */
interface Wasm {
  readonly Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer };
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object, imports: object) => { readonly exports: unknown };
  validate(bytes: Uint8Array): boolean;
}
declare const WebAssembly: Wasm | undefined;

interface LatticeExports {
  link(
    f: number,
    count: number,
    to: number,
    near: number,
    far: number,
    rest: number,
    scale: number,
    share: number,
    constant: number,
  ): void;
  collide(
    f: number,
    out: number,
    size: number,
    spans: number,
    spansEnd: number,
    tau: number,
    eddy: number,
    resolved: number,
  ): void;
}

const PAGE = 65_536;
/** Numbers beyond an array's end that a vector may touch. */
const OVERRUN = 4;

/** The fastest kernel that this engine can run. */
export function createKernel(setup: KernelSetup): Kernel {
  return hasSimd() ? createWasmKernel(setup) : createPlainKernel(setup);
}

let bytes: Uint8Array | undefined;

function hasSimd(): boolean {
  bytes ??= decodeBase64(LATTICE_WASM);
  return typeof WebAssembly !== 'undefined' && WebAssembly.validate(bytes);
}

/** @throws Error in an engine without WebAssembly or its SIMD. */
export function createWasmKernel({ grid, links, subgrid }: KernelSetup): Kernel {
  if (!hasSimd() || WebAssembly === undefined || bytes === undefined) {
    throw new Error('This engine has no WebAssembly SIMD.');
  }
  const { size, spans, nz } = grid;
  const { count } = links;
  let end = 1024;
  const reserve = (numbers: number): number => {
    const at = end;
    end += 16 * Math.ceil((4 * (numbers + OVERRUN)) / 16);
    return at;
  };
  let source = reserve(DIRECTIONS * size);
  let target = reserve(DIRECTIONS * size);
  const at = {
    tau: reserve(nz),
    spans: reserve(spans.length),
    to: reserve(count),
    near: reserve(count),
    far: reserve(count),
    rest: reserve(count),
    scale: reserve(count),
    share: reserve(count),
    constant: reserve(count),
  };
  const memory = new WebAssembly.Memory({ initial: Math.ceil(end / PAGE) });
  const { buffer } = memory;
  const integers = (from: number, values: Int32Array): void => {
    new Int32Array(buffer, from, values.length).set(values);
  };
  integers(at.spans, spans);
  integers(at.to, links.to);
  integers(at.near, links.near);
  integers(at.far, links.far);
  integers(at.rest, links.rest);
  new Float32Array(buffer, at.scale, count).set(links.scale);
  new Float32Array(buffer, at.share, count).set(links.share);
  const constant = new Float32Array(buffer, at.constant, count);
  constant.set(links.constant);
  const tau = new Float32Array(buffer, at.tau, nz);
  const module = new WebAssembly.Module(bytes);
  const instance = new WebAssembly.Instance(module, { env: { memory } });
  // The module is our own: its exports are those of kernels/lattice.ts.
  const lattice = instance.exports as LatticeExports;
  const views = new Map(
    [source, target].map((from) => [from, new Float32Array(buffer, from, DIRECTIONS * size)]),
  );
  const eddy = 18 * Math.SQRT2 * subgrid * subgrid;
  const populations = (): Float32Array => {
    const view = views.get(source);
    if (view === undefined) throw new Error('the populations lie in one of two arrays');
    return view;
  };
  return {
    populations,
    constant,
    tau,
    step() {
      lattice.link(source, count, at.to, at.near, at.far, at.rest, at.scale, at.share, at.constant);
      const spansEnd = at.spans + 4 * spans.length;
      lattice.collide(source, target, size, at.spans, spansEnd, at.tau, eddy, RESOLVED);
      const held = source;
      source = target;
      target = held;
    },
  };
}
