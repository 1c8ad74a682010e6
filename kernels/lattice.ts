/**
 * The step of `src/flow/plain-kernel.ts` in AssemblyScript with SIMD: four neighbouring cells at once.
 * The scheme and its sources are told there; sums are taken in the same order. Built by
 * `node kernels/build.mjs` into `src/flow/lattice-wasm.ts`.
 *
 * All arguments are byte addresses in the imported memory, counts, or numbers.
 */

// @ts-ignore: decorator
@inline function add(a: v128, b: v128): v128 { return f32x4.add(a, b); }
// @ts-ignore: decorator
@inline function sub(a: v128, b: v128): v128 { return f32x4.sub(a, b); }
// @ts-ignore: decorator
@inline function mul(a: v128, b: v128): v128 { return f32x4.mul(a, b); }
// @ts-ignore: decorator
@inline function all(a: f32): v128 { return f32x4.splat(a); }

/** Applies the links: population[to] = scale population[near] + share population[far] + constant. */
export function link(
  f: usize,
  count: i32,
  to: usize,
  near: usize,
  far: usize,
  rest: usize,
  scale: usize,
  share: usize,
  constant: usize,
): void {
  for (let n: usize = 0; n < <usize>count * 4; n += 4) {
    const leaving = load<f32>(f + <usize>load<u32>(near + n) * 4);
    const value =
      load<f32>(scale + n) * leaving +
      load<f32>(share + n) * load<f32>(f + <usize>load<u32>(far + n) * 4) +
      load<f32>(constant + n);
    const still = f + <usize>load<u32>(rest + n) * 4;
    store<f32>(still, load<f32>(still) + (leaving - value));
    store<f32>(f + <usize>load<u32>(to + n) * 4, value);
  }
}

/**
 * Streams and collides all spans. A span's last cells are done once more to fill a vector; a span of
 * fewer than four cells runs on into what lies behind it, which is written again before it is read.
 */
export function collide(
  f: usize,
  out: usize,
  size: i32,
  spans: usize,
  spansEnd: usize,
  tauOf: usize,
  eddy: f32,
  resolved: f32,
): void {
  const row: usize = <usize>size * 4;
  const HALF = all(0.5);
  const QUARTER = all(0.25);
  const EIGHTH = all(0.125);
  const TWO = all(2);
  const EDDY = all(eddy);
  const RESOLVED = all(resolved);
  for (let s = spans; s < spansEnd; s += 44) {
    const from = <usize>load<i32>(s) * 4;
    const length = load<i32>(s, 4);
    const tau = tauOf + <usize>load<i32>(s, 8) * 4;
    const left = <usize>load<i32>(s, 12) * 4;
    const right = <usize>load<i32>(s, 16) * 4;
    const front = <usize>load<i32>(s, 20) * 4;
    const rear = <usize>load<i32>(s, 24) * 4;
    const base = f + from;
    const p1 = base + row + left;
    const p2 = base + 2 * row + right;
    const p3 = base + 3 * row + front;
    const p4 = base + 4 * row + rear;
    const p5 = base + 5 * row - 4;
    const p6 = base + 6 * row + 4;
    const p7 = base + 7 * row + <usize>load<i32>(s, 28) * 4;
    const p8 = base + 8 * row + <usize>load<i32>(s, 32) * 4;
    const p9 = base + 9 * row + <usize>load<i32>(s, 36) * 4;
    const p10 = base + 10 * row + <usize>load<i32>(s, 40) * 4;
    const p11 = base + 11 * row + left - 4;
    const p12 = base + 12 * row + right + 4;
    const p13 = base + 13 * row + left + 4;
    const p14 = base + 14 * row + right - 4;
    const p15 = base + 15 * row + front - 4;
    const p16 = base + 16 * row + rear + 4;
    const p17 = base + 17 * row + front + 4;
    const p18 = base + 18 * row + rear - 4;
    for (let cell: i32 = 0; cell < length; cell += 4) {
      if (cell + 4 > length && length >= 4) cell = length - 4;
      const n: usize = <usize>cell * 4;
      const f1 = v128.load(p1 + n);
      const f2 = v128.load(p2 + n);
      const f3 = v128.load(p3 + n);
      const f4 = v128.load(p4 + n);
      const f5 = v128.load(p5 + n);
      const f6 = v128.load(p6 + n);
      const f7 = v128.load(p7 + n);
      const f8 = v128.load(p8 + n);
      const f9 = v128.load(p9 + n);
      const f10 = v128.load(p10 + n);
      const f11 = v128.load(p11 + n);
      const f12 = v128.load(p12 + n);
      const f13 = v128.load(p13 + n);
      const f14 = v128.load(p14 + n);
      const f15 = v128.load(p15 + n);
      const f16 = v128.load(p16 + n);
      const f17 = v128.load(p17 + n);
      const f18 = v128.load(p18 + n);
      const s78 = add(f7, f8);
      const s90 = add(f9, f10);
      const sxz = add(f11, f12);
      const szx = add(f13, f14);
      const syz = add(f15, f16);
      const szy = add(f17, f18);
      const d78 = sub(f7, f8);
      const d90 = sub(f9, f10);
      const dxz = sub(f11, f12);
      const dzx = sub(f13, f14);
      const dyz = sub(f15, f16);
      const dzy = sub(f17, f18);
      const axis1 = add(f1, f2);
      const axis3 = add(f3, f4);
      const axis5 = add(f5, f6);
      const xy = add(s78, s90);
      const xz = add(sxz, szx);
      const yz = add(syz, szy);
      const rho = add(add(add(add(add(add(v128.load(base + n), axis1), axis3), axis5), xy), xz), yz);
      const u = add(add(add(add(sub(f1, f2), d78), d90), dxz), dzx);
      const v = add(add(sub(add(sub(f3, f4), d78), d90), dyz), dzy);
      const w = sub(add(sub(add(sub(f5, f6), dxz), dzx), dyz), dzy);
      const uu = mul(u, u);
      const vv = mul(v, v);
      const ww = mul(w, w);
      const uv = mul(u, v);
      const uw = mul(u, w);
      const vw = mul(v, w);
      const mxx = sub(add(add(axis1, xy), xz), uu);
      const myy = sub(add(add(axis3, xy), yz), vv);
      const mzz = sub(add(add(axis5, xz), yz), ww);
      const third = mul(add(add(mxx, myy), mzz), all(<f32>(1.0 / 3.0)));
      const nxx = sub(mxx, third);
      const nyy = sub(myy, third);
      const nzz = sub(mzz, third);
      const nxy = sub(sub(s78, s90), uv);
      const nxz = sub(sub(sxz, szx), uw);
      const nyz = sub(sub(syz, szy), vw);
      const norm = add(
        add(add(mul(nxx, nxx), mul(nyy, nyy)), mul(nzz, nzz)),
        mul(TWO, add(add(mul(nxy, nxy), mul(nxz, nxz)), mul(nyz, nyz))),
      );
      const tau0 = v128.load(tau + n);
      const shear = sub(f32x4.sqrt(norm), mul(RESOLVED, mul(tau0, sub(tau0, HALF))));
      const twice = add(
        tau0,
        f32x4.sqrt(add(mul(tau0, tau0), mul(EDDY, f32x4.max(shear, all(0))))),
      );
      const keep = sub(all(1), f32x4.div(TWO, twice));
      const kxx = mul(keep, nxx);
      const kyy = mul(keep, nyy);
      const kzz = mul(keep, nzz);
      const kxy = mul(keep, nxy);
      const kxz = mul(keep, nxz);
      const kyz = mul(keep, nyz);
      const axx = add(uu, kxx);
      const ayy = add(vv, kyy);
      const azz = add(ww, kzz);
      const axy = mul(QUARTER, add(uv, kxy));
      const axz = mul(QUARTER, add(uw, kxz));
      const ayz = mul(QUARTER, add(vw, kyz));
      const u2 = add(u, u);
      const v2 = add(v, v);
      const w2 = add(w, w);
      const txxy = add(add(mul(uu, v), mul(u2, kxy)), mul(v, kxx));
      const txyy = add(add(mul(vv, u), mul(v2, kxy)), mul(u, kyy));
      const txxz = add(add(mul(uu, w), mul(u2, kxz)), mul(w, kxx));
      const txzz = add(add(mul(ww, u), mul(w2, kxz)), mul(u, kzz));
      const tyyz = add(add(mul(vv, w), mul(v2, kyz)), mul(w, kyy));
      const tyzz = add(add(mul(ww, v), mul(w2, kyz)), mul(v, kzz));
      const e = sub(rho, mul(all(1.5), add(add(axx, ayy), azz)));
      let at = out + from + n;
      v128.store(at, mul(e, all(<f32>(1.0 / 3.0))));
      const e18 = mul(e, all(<f32>(1.0 / 18.0)));
      const evenX = add(e18, mul(QUARTER, axx));
      const evenY = add(e18, mul(QUARTER, ayy));
      const evenZ = add(e18, mul(QUARTER, azz));
      const sixth = all(<f32>(1.0 / 6.0));
      const oddX = sub(mul(u, sixth), mul(HALF, add(txyy, txzz)));
      const oddY = sub(mul(v, sixth), mul(HALF, add(txxy, tyzz)));
      const oddZ = sub(mul(w, sixth), mul(HALF, add(txxz, tyyz)));
      v128.store((at += row), add(evenX, oddX));
      v128.store((at += row), sub(evenX, oddX));
      v128.store((at += row), add(evenY, oddY));
      v128.store((at += row), sub(evenY, oddY));
      v128.store((at += row), add(evenZ, oddZ));
      v128.store((at += row), sub(evenZ, oddZ));
      const e36 = mul(HALF, e18);
      const twelfth = all(<f32>(1.0 / 12.0));
      const u12 = mul(u, twelfth);
      const v12 = mul(v, twelfth);
      const w12 = mul(w, twelfth);
      const evenXY = add(e36, mul(EIGHTH, add(axx, ayy)));
      const ox = add(u12, mul(QUARTER, txyy));
      const oy = add(v12, mul(QUARTER, txxy));
      let plus = add(evenXY, axy);
      let minus = sub(evenXY, axy);
      let sum = add(ox, oy);
      let diff = sub(ox, oy);
      v128.store((at += row), add(plus, sum));
      v128.store((at += row), sub(plus, sum));
      v128.store((at += row), add(minus, diff));
      v128.store((at += row), sub(minus, diff));
      const evenXZ = add(e36, mul(EIGHTH, add(axx, azz)));
      const px = add(u12, mul(QUARTER, txzz));
      const pz = add(w12, mul(QUARTER, txxz));
      plus = add(evenXZ, axz);
      minus = sub(evenXZ, axz);
      sum = add(px, pz);
      diff = sub(px, pz);
      v128.store((at += row), add(plus, sum));
      v128.store((at += row), sub(plus, sum));
      v128.store((at += row), add(minus, diff));
      v128.store((at += row), sub(minus, diff));
      const evenYZ = add(e36, mul(EIGHTH, add(ayy, azz)));
      const qy = add(v12, mul(QUARTER, tyzz));
      const qz = add(w12, mul(QUARTER, tyyz));
      plus = add(evenYZ, ayz);
      minus = sub(evenYZ, ayz);
      sum = add(qy, qz);
      diff = sub(qy, qz);
      v128.store((at += row), add(plus, sum));
      v128.store((at += row), sub(plus, sum));
      v128.store((at += row), add(minus, diff));
      v128.store(at + row, sub(minus, diff));
    }
  }
}
