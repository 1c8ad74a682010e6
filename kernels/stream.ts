/**
 * `digestChannel`, `channelPressure` and `splitFlow` of `src/physics` in AssemblyScript with SIMD: two channels side
 * by side, one in each lane. The equations and their sources are told there; every lane does the same
 * operations in the same order, so that results are the same to the last bit (a test compares them).
 * Built by `node kernels/build.mjs` into `src/physics/stream-wasm.ts`.
 *
 * Addresses are in bytes; numbers are doubles.
 */

// @ts-ignore: decorator
@inline function add(a: v128, b: v128): v128 { return f64x2.add(a, b); }
// @ts-ignore: decorator
@inline function sub(a: v128, b: v128): v128 { return f64x2.sub(a, b); }
// @ts-ignore: decorator
@inline function mul(a: v128, b: v128): v128 { return f64x2.mul(a, b); }
// @ts-ignore: decorator
@inline function div(a: v128, b: v128): v128 { return f64x2.div(a, b); }
// @ts-ignore: decorator
@inline function root(a: v128): v128 { return f64x2.sqrt(a); }
// @ts-ignore: decorator
@inline function all(a: f64): v128 { return f64x2.splat(a); }
// @ts-ignore: decorator
@inline function pick(a: v128, b: v128, mask: v128): v128 { return v128.bitselect(a, b, mask); }
// @ts-ignore: decorator
@inline function lane0(a: v128): f64 { return f64x2.extract_lane(a, 0); }
// @ts-ignore: decorator
@inline function lane1(a: v128): f64 { return f64x2.extract_lane(a, 1); }
// @ts-ignore: decorator
@inline function both(a: usize, b: usize): v128 { return v128.load64_lane(b, v128.load64_zero(a), 1); }
// @ts-ignore: decorator
@inline function put(a: usize, b: usize, value: v128): void {
  v128.store64_lane(a, value, 0);
  v128.store64_lane(b, value, 1);
}
// @ts-ignore: decorator
@inline function greater(a: v128, b: v128): v128 { return f64x2.pmax(a, b); }
// @ts-ignore: decorator
@inline function lesser(a: v128, b: v128): v128 { return f64x2.pmin(a, b); }

const PI: f64 = 3.141592653589793;
const LAMINAR_LIMIT: f64 = 2300;
const FULLY_TURBULENT: f64 = 4000;

// Fields of `DIGEST`, in bytes.
const MAX_LOBES: i32 = 6;
const PANEL: usize = 80;
const P_REYNOLDS: usize = 0;
const P_ENTRY: usize = 8;
const P_DEVELOPED: usize = 16;
const P_BEND: usize = 24;
const P_ROUGH: usize = 32;
const P_LENGTH: usize = 40;
const P_F_RE: usize = 48;
const P_LOBE: usize = 56;
const P_REACH: usize = 64;
const P_BEFORE: usize = 72;
const LOBE: usize = 24;
const L_SLOPE: usize = 8;
const L_REYNOLDS: usize = 16;
const SHAPE: usize = 96;
const S_CREEP: usize = 0;
const S_EXIT: usize = 8;
const S_INLET: usize = 16;
const S_WIDENING: usize = 24;
const S_RECOVERED: usize = 32;
const S_REYNOLDS: usize = 40;
const S_LOBES: usize = 48;
const S_ROUGHNESS: usize = 72;
const S_ROUGH: usize = 80;
const S_SEPARATION: usize = 88;

// Tables: lowest argument, cells per unit, cells, a gap, coefficients [4 x cells].
let roughTerm: usize = 0;
let halfSine: usize = 0;
let logTightness: usize = 0;
let spreadOf: usize = 0;
let cone: usize = 0;
let white: usize = 0;
let itoHigh: usize = 0;
let inverseRoot: usize = 0;

/** Where the tables lie that the plain forms read. */
export function tables(
  roughAt: usize,
  sineAt: usize,
  tightnessAt: usize,
  spreadAt: usize,
  coneAt: usize,
  whiteAt: usize,
  itoAt: usize,
  rootAt: usize,
): void {
  roughTerm = roughAt;
  halfSine = sineAt;
  logTightness = tightnessAt;
  spreadOf = spreadAt;
  cone = coneAt;
  white = whiteAt;
  itoHigh = itoAt;
  inverseRoot = rootAt;
}

/** `readTable`. */
// @ts-ignore: decorator
@inline function read(table: usize, x: v128): v128 {
  const cells = v128.load64_splat(table, 16);
  const t = greater(all(0), mul(sub(x, v128.load64_splat(table)), v128.load64_splat(table, 8)));
  const inside = f64x2.lt(t, cells);
  const cell = pick(f64x2.floor(t), sub(cells, all(1)), inside);
  const u = pick(sub(t, cell), all(1), inside);
  // Adding 2^52 leaves the whole number in the low bits.
  const bits = add(cell, all(4503599627370496.0));
  const a = table + 32 + (<usize>i64x2.extract_lane(bits, 0) & 1023) * 32;
  const b = table + 32 + (<usize>i64x2.extract_lane(bits, 1) & 1023) * 32;
  const a0 = v128.load(a);
  const b0 = v128.load(b);
  const a2 = v128.load(a, 16);
  const b2 = v128.load(b, 16);
  const c0 = v128.shuffle<f64>(a0, b0, 0, 2);
  const c1 = v128.shuffle<f64>(a0, b0, 1, 3);
  const c2 = v128.shuffle<f64>(a2, b2, 0, 2);
  const c3 = v128.shuffle<f64>(a2, b2, 1, 3);
  return add(c0, mul(u, add(c1, mul(u, add(c2, mul(u, c3))))));
}

/** `readTable` of one number. */
function readOne(table: usize, x: f64): f64 {
  const t = (x - load<f64>(table)) * load<f64>(table, 8);
  const cells = load<f64>(table, 16);
  if (!(t > 0)) return load<f64>(table, 32);
  const cell = t < cells ? Math.floor(t) : cells - 1;
  const u = t < cells ? t - cell : 1;
  const c = table + 32 + (<usize>(<i32>cell)) * 32;
  return load<f64>(c) + u * (load<f64>(c, 8) + u * (load<f64>(c, 16) + u * load<f64>(c, 24)));
}

/** `turbulentFriction`. */
// @ts-ignore: decorator
@inline function turbulentFriction(Re: v128, rough: v128): v128 {
  const inverse = read(inverseRoot, root(root(add(rough, div(all(6.9), Re)))));
  return div(all(1), mul(inverse, inverse));
}

/** What the digests of a plate's shapes share. */
class Plate {
  stations: i32;
  panels: i32;
  /** 1 for slots, 0 for sections whose sides all touch the inscribed circle. */
  slots: i32;
  /** Component of the tangent along the build direction. */
  axis: i32;
  unit: f64;
  shrinkage: f64;
  layer: f64;
  viscosity: f64;
  half: f64;
  /** Last station of each panel as 32-bit integers; sqrt(i/2) of 0 <= i < 2 stations. */
  ends: usize;
  progress: usize;
  // Arrays of `StationArrays`, and f Re of each panel.
  tangent: usize;
  area: usize;
  perimeter: usize;
  bore: usize;
  length: usize;
  fRe: usize;
  // Digests, and the numbers that ends are made of: area and D_h at both ends, least area.
  shape: usize;
  panel: usize;
  lobe: usize;
  port: usize;
  /** Room for area, D_h and 1/D_h of two shapes [3 x stations x 2]. */
  scratch: usize;
}

/** Digests two shapes, but for their ends; both may be the same one, whose bends are then noted once. */
export function digest(plateAt: usize, one: i32, two: i32): void {
  const plate = changetype<Plate>(plateAt);
  shrink(plate, one, two);
  digestPanels(plate, one, two);
  digestBends(plate, one, two);
  widen(plate, one, two);
}

// @ts-ignore: decorator
@inline function shrink(plate: Plate, one: i32, two: i32): void {
  const stations = <usize>plate.stations;
  const unit = all(plate.unit);
  const shrinkage = all(plate.shrinkage);
  const block = stations * 16;
  let bore1 = plate.bore + <usize>one * stations * 8;
  let bore2 = plate.bore + <usize>two * stations * 8;
  let area1 = plate.area + <usize>one * stations * 8;
  let area2 = plate.area + <usize>two * stations * 8;
  let round1 = plate.perimeter + <usize>one * stations * 8;
  let round2 = plate.perimeter + <usize>two * stations * 8;
  const slots = plate.slots;
  let out = plate.scratch;
  const end = out + block;
  let narrowest = all(Infinity);
  let area = all(0);
  let diameter = all(0);
  for (; out < end; out += 16) {
    const bore = both(bore1, bore2);
    const drawn = both(area1, area2);
    const printed = greater(sub(bore, shrinkage), mul(all(0.1), bore));
    if (slots) {
      const perimeter = both(round1, round2);
      const off = div(sub(bore, printed), all(2));
      const A = sub(drawn, mul(off, sub(perimeter, mul(all(PI), off))));
      area = mul(mul(A, unit), unit);
      diameter = mul(div(mul(all(4), A), sub(perimeter, mul(all(2 * PI), off))), unit);
      round1 += 8;
      round2 += 8;
    } else {
      const scale = mul(div(printed, bore), unit);
      area = mul(mul(drawn, scale), scale);
      diameter = mul(printed, unit);
    }
    v128.store(out, area);
    v128.store(out + block, diameter);
    v128.store(out + 2 * block, div(all(1), diameter));
    narrowest = lesser(narrowest, area);
    bore1 += 8;
    bore2 += 8;
    area1 += 8;
    area2 += 8;
  }
  const port1 = plate.port + <usize>one * 40;
  const port2 = plate.port + <usize>two * 40;
  put(port1, port2, v128.load(plate.scratch));
  put(port1 + 8, port2 + 8, area);
  put(port1 + 16, port2 + 16, v128.load(plate.scratch + block));
  put(port1 + 24, port2 + 24, diameter);
  put(port1 + 32, port2 + 32, narrowest);
}

// @ts-ignore: decorator
@inline function stepOf(plate: Plate, one: i32, two: i32): v128 {
  const length = both(plate.length + <usize>one * 8, plate.length + <usize>two * 8);
  return div(mul(length, all(plate.unit)), all(<f64>(plate.stations - 1)));
}

// @ts-ignore: decorator
@inline function digestPanels(plate: Plate, one: i32, two: i32): void {
  const stations = <usize>plate.stations;
  const block = stations * 16;
  const areas = plate.scratch;
  const diameters = areas + block;
  const inverses = diameters + block;
  const panels = <usize>plate.panels;
  const nu = plate.viscosity;
  const half = all(plate.half);
  const layer = all(plate.layer);
  const step = stepOf(plate, one, two);
  let at1 = plate.panel + <usize>one * panels * PANEL;
  let at2 = plate.panel + <usize>two * panels * PANEL;
  const fRe1 = plate.fRe + <usize>one * panels * 8;
  const fRe2 = plate.fRe + <usize>two * panels * 8;
  const tangent1 = plate.tangent + <usize>one * stations * 24 + <usize>plate.axis * 8;
  const tangent2 = plate.tangent + <usize>two * stations * 24 + <usize>plate.axis * 8;
  let allRe = all(0);
  let allRough = all(0);
  let last: i32 = 0;
  for (let p: usize = 0; p < panels; p++) {
    const first = last;
    last = load<i32>(plate.ends + p * 4);
    let re = all(0);
    let entry = all(0);
    let length = all(0);
    let size = all(0);
    for (let i = first; i <= last; i++) {
      const weight = all(i === first || i === last ? 0.5 : 1);
      const n = <usize>i * 16;
      const D_h = mul(weight, v128.load(diameters + n));
      const inverse = div(all(1), v128.load(areas + n));
      const q = mul(mul(weight, inverse), inverse);
      re = add(re, mul(D_h, inverse));
      entry = add(entry, q);
      length = add(length, mul(q, v128.load(inverses + n)));
      size = add(size, D_h);
    }
    const middle = <usize>((first + last) >> 1);
    const side = mul(root(v128.load(areas + middle * 16)), v128.load(inverses + middle * 16));
    const fRe = both(fRe1 + p * 8, fRe2 + p * 8);
    const rise = both(tangent1 + middle * 24, tangent2 + middle * 24);
    const share = all(1.0 / <f64>(last - first));
    const sine = root(greater(all(0), sub(all(1), mul(rise, rise))));
    const height = mul(layer, add(all(0.2), mul(all(0.95), sine)));
    const roughness = div(height, mul(size, share));
    put(at1 + P_REYNOLDS, at2 + P_REYNOLDS, div(mul(re, share), all(nu)));
    put(at1 + P_ENTRY, at2 + P_ENTRY, mul(mul(mul(mul(all(4), side), half), entry), share));
    put(at1 + P_DEVELOPED, at2 + P_DEVELOPED, mul(mul(all(0.25), fRe), side));
    put(at1 + P_ROUGH, at2 + P_ROUGH, read(roughTerm, root(roughness)));
    put(at1 + P_LENGTH, at2 + P_LENGTH, mul(mul(half, length), step));
    put(at1 + P_F_RE, at2 + P_F_RE, fRe);
    put(at1 + P_REACH, at2 + P_REACH, mul(mul(all(nu), step), all(<f64>last)));
    allRe = add(allRe, re);
    allRough = add(allRough, mul(roughness, all(<f64>(last - first))));
    at1 += PANEL;
    at2 += PANEL;
  }
  const row1 = plate.shape + <usize>one * SHAPE;
  const row2 = plate.shape + <usize>two * SHAPE;
  const intervals = <f64>(plate.stations - 1);
  const roughness = div(allRough, all(intervals));
  const rough = read(roughTerm, root(roughness));
  put(row1 + S_REYNOLDS, row2 + S_REYNOLDS, div(allRe, all(nu * intervals)));
  put(row1 + S_ROUGHNESS, row2 + S_ROUGHNESS, roughness);
  put(row1 + S_ROUGH, row2 + S_ROUGH, rough);
  put(row1 + S_SEPARATION, row2 + S_SEPARATION, turbulentFriction(all(FULLY_TURBULENT), rough));
}

const BEND_FROM: f64 = 0.05;
const BEND_FULL: f64 = 0.15;
const FULL_SLOPE: f64 = 1.0 / (BEND_FULL - BEND_FROM);
const SAME_BEND: f64 = 0.5;
const SMALL_TURN: f64 = PI / 9.0;
const TIGHTEST: f64 = 0.5;

/** `closeLobe`. */
function closeLobe(
  plate: Plate,
  index: i32,
  count: i32,
  turn: f64,
  square: f64,
  sizes: f64,
  areas: f64,
  width: f64,
): void {
  const place = min<i32>(count, MAX_LOBES - 1);
  const at = plate.lobe + <usize>(index * MAX_LOBES + place) * LOBE;
  const angle = min<f64>(turn, PI);
  const tightness = turn / square / (sizes / width);
  const s = max<f64>(0, readOne(halfSine, angle));
  const tight = readOne(logTightness, Math.sqrt(1.0 / max<f64>(TIGHTEST, tightness)));
  const spread = readOne(spreadOf, -(4.0 / PI) * angle * tight);
  const fade = angle < SMALL_TURN ? Math.sqrt(angle / SMALL_TURN) : 1.0;
  const base = 0.1 * s * fade;
  const slope = (2.4 * s + 6.6 * (Math.sqrt(s) + s) * spread) * fade;
  const area = areas / width;
  const q = plate.half / (area * area);
  const shared = count >= MAX_LOBES;
  store<f64>(at, base * q + (shared ? load<f64>(at) : 0));
  store<f64>(at, slope * q + (shared ? load<f64>(at, L_SLOPE) : 0), L_SLOPE);
  store<f64>(at, load<f64>(plate.shape + <usize>index * SHAPE, S_REYNOLDS), L_REYNOLDS);
}

// @ts-ignore: decorator
@inline function digestBends(plate: Plate, one: i32, two: i32): void {
  const stations = <usize>plate.stations;
  const block = stations * 16;
  const areaAt = plate.scratch;
  const diameterAt = areaAt + block;
  const inverseAt = diameterAt + block;
  const progress = plate.progress;
  const panels = <usize>plate.panels;
  const step = stepOf(plate, one, two);
  const inverseStep = div(all(1), step);
  const halfStep = mul(all(0.5), step);
  let t1 = plate.tangent + <usize>one * stations * 24;
  let t2 = plate.tangent + <usize>two * stations * 24;
  let ux = both(t1, t2);
  let uy = both(t1 + 8, t2 + 8);
  let uz = both(t1 + 16, t2 + 16);
  let cx = all(0);
  let cy = all(0);
  let cz = all(0);
  let before = all(0);
  let width = all(0);
  let turn = all(0);
  let square = all(0);
  let dx = all(0);
  let dy = all(0);
  let dz = all(0);
  let sizes = all(0);
  let areas = all(0);
  let opened = all(0);
  let lobes1: i32 = 0;
  let lobes2: i32 = 0;
  let station: i32 = 1;
  let last: i32 = 0;
  let at1 = plate.panel + <usize>one * panels * PANEL;
  let at2 = plate.panel + <usize>two * panels * PANEL;
  for (let p: usize = 0; p < panels; p++) {
    const first = last;
    last = load<i32>(plate.ends + p * 4);
    const start = progress + <usize>first * 16;
    let bend = mul(before, all(load<f64>(start, 8) - load<f64>(start)));
    for (; station <= last; station++) {
      t1 += 24;
      t2 += 24;
      const n = <usize>station * 16;
      const D_h = v128.load(diameterAt + n);
      const inverse = v128.load(inverseAt + n);
      const tx = both(t1, t2);
      const ty = both(t1 + 8, t2 + 8);
      const tz = both(t1 + 16, t2 + 16);
      const gap = sub(all(1), add(add(mul(tx, ux), mul(ty, uy)), mul(tz, uz)));
      const perStep = mul(add(all(1), mul(gap, all(1.0 / 12.0))), inverseStep);
      const kx = mul(sub(tx, ux), perStep);
      const ky = mul(sub(ty, uy), perStep);
      const kz = mul(sub(tz, uz), perStep);
      const k = root(add(add(mul(kx, kx), mul(ky, ky)), mul(kz, kz)));
      const across = mul(
        mul(add(add(mul(cx, tx), mul(cy, ty)), mul(cz, tz)), all(0.5)),
        add(all(1), mul(gap, add(all(0.5), mul(all(0.25), gap)))),
      );
      const pull = mul(halfStep, greater(div(inverse, all(3)), root(mul(k, inverse))));
      const keep = div(all(1), add(all(1), pull));
      const fade = mul(greater(all(0), sub(all(1), pull)), keep);
      const gain = lesser(all(1), mul(mul(all(2), pull), keep));
      cx = add(mul(fade, sub(cx, mul(across, add(tx, ux)))), mul(gain, kx));
      cy = add(mul(fade, sub(cy, mul(across, add(ty, uy)))), mul(gain, ky));
      cz = add(mul(fade, sub(cz, mul(across, add(tz, uz)))), mul(gain, kz));
      ux = tx;
      uy = ty;
      uz = tz;
      const c = root(add(add(mul(cx, cx), mul(cy, cy)), mul(cz, cz)));
      before = root(mul(mul(all(0.5), D_h), c));
      const until = <usize>(station === last ? 2 * station : 2 * station + 1);
      const grown = load<f64>(progress + until * 8) - load<f64>(progress + n - 8);
      bend = add(bend, mul(before, all(grown)));
      const strength = mul(k, D_h);
      const bends = f64x2.gt(strength, all(BEND_FROM));
      const isOpen = f64x2.gt(width, all(0));
      if (v128.any_true(isOpen)) {
        const along = add(add(mul(kx, dx), mul(ky, dy)), mul(kz, dz));
        const d2 = add(add(mul(dx, dx), mul(dy, dy)), mul(dz, dz));
        const size = mul(mul(d2, k), k);
        const strays = v128.or(
          f64x2.lt(along, all(0)),
          f64x2.lt(mul(along, along), mul(all(SAME_BEND * SAME_BEND), size)),
        );
        const over = v128.or(strays, f64x2.gt(turn, all(PI)));
        const closes = v128.and(isOpen, v128.or(v128.not(bends), over));
        if (v128.any_true(closes)) {
          if (i64x2.extract_lane(closes, 0)) {
            closeLobe(plate, one, lobes1, lane0(turn), lane0(square), lane0(sizes), lane0(areas), lane0(width));
            lobes1++;
          }
          if (i64x2.extract_lane(closes, 1)) {
            if (two !== one) closeLobe(plate, two, lobes2, lane1(turn), lane1(square), lane1(sizes), lane1(areas), lane1(width));
            lobes2++;
          }
          width = v128.andnot(width, closes);
        }
      }
      if (v128.any_true(bends)) {
        const opens = v128.and(bends, f64x2.eq(width, all(0)));
        if (v128.any_true(opens)) {
          turn = v128.andnot(turn, opens);
          square = v128.andnot(square, opens);
          dx = v128.andnot(dx, opens);
          dy = v128.andnot(dy, opens);
          dz = v128.andnot(dz, opens);
          sizes = v128.andnot(sizes, opens);
          areas = v128.andnot(areas, opens);
          opened = pick(all(<f64>(station - 1)), opened, opens);
        }
        const full = mul(sub(strength, all(BEND_FROM)), all(FULL_SLOPE));
        const weight = v128.and(bends, mul(lesser(all(1), full), step));
        const turned = mul(weight, k);
        width = add(width, weight);
        turn = add(turn, turned);
        square = add(square, mul(turned, k));
        dx = add(dx, mul(weight, kx));
        dy = add(dy, mul(weight, ky));
        dz = add(dz, mul(weight, kz));
        sizes = add(sizes, mul(weight, D_h));
        areas = add(areas, mul(weight, v128.load(areaAt + n)));
      }
    }
    const within1 = min<i32>(lane0(width) > 0 ? lobes1 : lobes1 - 1, MAX_LOBES - 1);
    const within2 = min<i32>(lane1(width) > 0 ? lobes2 : lobes2 - 1, MAX_LOBES - 1);
    store<f64>(at1, <f64>within1, P_LOBE);
    store<f64>(at2, <f64>within2, P_LOBE);
    const earlier = greater(all(0), sub(opened, all(<f64>first)));
    put(at1 + P_BEFORE, at2 + P_BEFORE, div(earlier, all(<f64>(last - first))));
    const whole = load<f64>(progress + <usize>last * 16) - load<f64>(start);
    put(at1 + P_BEND, at2 + P_BEND, div(bend, all(whole)));
    at1 += PANEL;
    at2 += PANEL;
  }
  if (lane0(width) > 0) {
    closeLobe(plate, one, lobes1, lane0(turn), lane0(square), lane0(sizes), lane0(areas), lane0(width));
    lobes1++;
  }
  if (lane1(width) > 0) {
    if (two !== one) closeLobe(plate, two, lobes2, lane1(turn), lane1(square), lane1(sizes), lane1(areas), lane1(width));
    lobes2++;
  }
  store<f64>(plate.shape + <usize>one * SHAPE, <f64>min<i32>(lobes1, MAX_LOBES), S_LOBES);
  store<f64>(plate.shape + <usize>two * SHAPE, <f64>min<i32>(lobes2, MAX_LOBES), S_LOBES);
}

const REVERSAL: f64 = 0.1;

/** `coneShare`. */
function coneShare(low: f64, high: f64, length: f64): f64 {
  const sigma = low / high;
  if (sigma > 1.0 - 1e-9) return 0;
  const slope = (Math.sqrt(high) - Math.sqrt(low)) / (Math.sqrt(PI) * length);
  const factor = readOne(cone, slope / (1.0 + slope));
  return min<f64>(1, (factor * (1.0 - sigma)) / (1.0 + sigma));
}

/** `wideningLosses`. */
// @ts-ignore: decorator
@inline function widen(plate: Plate, one: i32, two: i32): void {
  const step = stepOf(plate, one, two);
  const half = all(plate.half);
  let at = plate.scratch;
  const end = at + <usize>plate.stations * 16;
  let before = v128.load(at);
  let lost = all(0);
  let kept = all(0);
  let low = before;
  let high = before;
  let runLost = all(0);
  let grown = all(0);
  let grownSquared = all(0);
  for (at += 16; at < end; at += 16) {
    const A = v128.load(at);
    const rise = sub(A, before);
    const ends = v128.or(f64x2.lt(A, low), f64x2.lt(A, mul(all(1 - REVERSAL), high)));
    if (v128.any_true(ends)) {
      const closes = v128.and(ends, f64x2.gt(runLost, all(0)));
      if (v128.any_true(closes)) {
        const length = div(mul(mul(grown, grown), step), grownSquared);
        const share = shares(closes, low, high, length);
        lost = add(lost, v128.and(closes, runLost));
        kept = add(kept, v128.and(closes, mul(runLost, share)));
        runLost = v128.andnot(runLost, closes);
        grown = v128.andnot(grown, closes);
        grownSquared = v128.andnot(grownSquared, closes);
      }
      low = pick(A, low, ends);
      high = pick(A, high, ends);
    }
    const widens = v128.andnot(f64x2.gt(rise, all(0)), ends);
    if (v128.any_true(widens)) {
      const gone = sub(div(all(1), mul(before, before)), div(all(1), mul(A, A)));
      runLost = add(runLost, v128.and(widens, mul(half, gone)));
      grown = add(grown, v128.and(widens, rise));
      grownSquared = add(grownSquared, v128.and(widens, mul(rise, rise)));
      high = pick(A, high, v128.and(widens, f64x2.gt(A, high)));
    }
    before = A;
  }
  const closes = f64x2.gt(runLost, all(0));
  if (v128.any_true(closes)) {
    const length = div(mul(mul(grown, grown), step), grownSquared);
    const share = shares(closes, low, high, length);
    lost = add(lost, v128.and(closes, runLost));
    kept = add(kept, v128.and(closes, mul(runLost, share)));
  }
  const row1 = plate.shape + <usize>one * SHAPE;
  const row2 = plate.shape + <usize>two * SHAPE;
  put(row1 + S_WIDENING, row2 + S_WIDENING, lost);
  put(row1 + S_RECOVERED, row2 + S_RECOVERED, kept);
}

function shares(closes: v128, low: v128, high: v128, length: v128): v128 {
  let share = all(0);
  if (i64x2.extract_lane(closes, 0)) {
    share = f64x2.replace_lane(share, 0, coneShare(lane0(low), lane0(high), lane0(length)));
  }
  if (i64x2.extract_lane(closes, 1)) {
    share = f64x2.replace_lane(share, 1, coneShare(lane1(low), lane1(high), lane1(length)));
  }
  return share;
}

const FADE_FROM: f64 = 3000;
const FADE_TO: f64 = 5000;
const WHITE_FROM: f64 = 11.6;

/** Smooth passage t^2 (3 - 2 t). */
// @ts-ignore: decorator
@inline function smooth(t: v128): v128 {
  return mul(mul(t, t), sub(all(3), mul(all(2), t)));
}

/** `curvedFriction`, for positive delta. */
// @ts-ignore: decorator
@inline function curvedFriction(Re: v128, delta: v128): v128 {
  const u = mul(root(root(Re)), delta);
  const low = add(mul(all(0.029), delta), div(mul(all(0.304), delta), u));
  const above = f64x2.gt(u, v128.load64_splat(itoHigh));
  return v128.any_true(above) ? pick(mul(read(itoHigh, u), delta), low, above) : low;
}

/** Curvature's share of a pressure drop, bend by bend; leaves the sum of bends' friction in `bendSum`. */
function curvatureOf(
  panel: usize,
  panels: i32,
  row: usize,
  lobe: usize,
  bends: usize,
  Q: f64,
  f: f64,
): f64 {
  let curvature: f64 = 0;
  let bend: f64 = 0;
  let sum: f64 = 0;
  let current: i32 = -1;
  for (let p = 0; p < panels; p++, panel += PANEL, bends += 16) {
    let panelBend = load<f64>(bends);
    const until = <i32>load<f64>(panel, P_LOBE);
    if (current < until) {
      const before = panelBend * load<f64>(panel, P_BEFORE);
      bend += before;
      sum += before;
      panelBend -= before;
      for (; current < until; current++) {
        if (current >= 0) bend = max<f64>(bend, separation(lobe, current, Q, f));
        curvature += bend;
        bend = 0;
      }
    }
    bend += panelBend;
    sum += panelBend;
  }
  const lobes = <i32>load<f64>(row, S_LOBES);
  for (; current < lobes; current++) {
    if (current >= 0) bend = max<f64>(bend, separation(lobe, current, Q, f));
    curvature += bend;
    bend = 0;
  }
  bendSum = sum;
  return curvature + bend;
}

let bendSum: f64 = 0;

/** `separation`. */
// @ts-ignore: decorator
@inline function separation(lobe: usize, index: i32, Q: f64, f: f64): f64 {
  const at = lobe + <usize>index * LOBE;
  const Re = load<f64>(at, L_REYNOLDS) * Q;
  const fade = Re / (Re + 500.0);
  return (load<f64>(at) + load<f64>(at, L_SLOPE) * f) * fade * Q * Q;
}

/** Branches of a flow split: arrays of `FlowSplit` and room for what Newton reads of each. */
class Split {
  branches: i32;
  /** Shape of each branch as 32-bit integers, and its further loss per square of the flow. */
  shapes: usize;
  loss: usize;
  count: usize;
  flow: usize;
  pressure: usize;
  slope: usize;
  earlierFlow: usize;
  earlierPressure: usize;
  linear: usize;
  square: usize;
  perPressure: usize;
}

const MAX_ROUNDS: i32 = 60;

/**
 * `splitFlow`. Arrays have room for an even number of branches: where theirs is odd, one of no channels
 * stands behind the last.
 *
 * @returns common pressure drop, or NaN where none is found.
 */
export function split(plateAt: usize, splitAt: usize, total: f64, tolerance: f64): f64 {
  const plate = changetype<Plate>(plateAt);
  const split = changetype<Split>(splitAt);
  const end = <usize>split.branches * 8;
  if (split.branches & 1) {
    store<f64>(split.count + end, 0);
    store<f64>(split.earlierFlow + end, 1);
    store<f64>(split.earlierPressure + end, 1);
  }
  scaleFlows(split, total);
  for (let round = 0; round < MAX_ROUNDS; round++) {
    const spread = askBranches(plate, split);
    const common = commonPressure(split, total);
    const damping = all(round < 20 ? 1 : 0.5);
    for (let i: usize = 0; i < end; i += 16) {
      const pressure = v128.load(split.pressure + i);
      const a = sub(all(2), div(v128.load(split.slope + i), pressure));
      const y = div(all(common), pressure);
      const inner = add(mul(a, a), mul(mul(all(4), sub(all(1), a)), y));
      const x = div(mul(all(2), y), add(a, root(inner)));
      const flow = v128.load(split.flow + i);
      v128.store(split.flow + i, mul(flow, add(all(1), mul(damping, sub(x, all(1))))));
    }
    scaleFlows(split, total);
    if (spread < tolerance) return common;
  }
  return NaN;
}

function scaleFlows(split: Split, total: f64): void {
  const end = <usize>split.branches * 8;
  let sum: f64 = 0;
  for (let i: usize = 0; i < end; i += 8) {
    sum += load<f64>(split.count + i) * load<f64>(split.flow + i);
  }
  if (split.branches & 1) store<f64>(split.flow + end, 1);
  const scale = all(total / sum);
  for (let i: usize = 0; i < end; i += 16) {
    v128.store(split.flow + i, mul(v128.load(split.flow + i), scale));
  }
}

/** Asks every branch; returns the relative spread of their pressures. */
function askBranches(plate: Plate, split: Split): f64 {
  const last = split.branches - 1;
  for (let i = 0; i <= last; i += 2) {
    askTwo(plate, split, <usize>i, <usize>min<i32>(i + 1, last));
  }
  if (!(last & 1)) {
    const at = <usize>last * 8;
    store<f64>(split.pressure + at, load<f64>(split.pressure + at), 8);
    store<f64>(split.slope + at, load<f64>(split.slope + at), 8);
  }
  const end = <usize>split.branches * 8;
  let low = all(Infinity);
  let high = all(0);
  for (let i: usize = 0; i < end; i += 16) {
    const p = v128.load(split.pressure + i);
    const Q = v128.load(split.flow + i);
    const earlierQ = v128.load(split.earlierFlow + i);
    const earlier = v128.load(split.earlierPressure + i);
    const dQ = sub(Q, earlierQ);
    const step = f64x2.abs(dQ);
    const apart = v128.or(
      f64x2.gt(step, mul(all(0.1), Q)),
      f64x2.lt(step, mul(all(1e-8), Q)),
    );
    const chord = div(mul(mul(p, sub(p, earlier)), add(Q, earlierQ)), mul(add(p, earlier), dQ));
    const told = pick(v128.load(split.slope + i), chord, apart);
    v128.store(split.slope + i, lesser(mul(all(2.6), p), greater(p, told)));
    v128.store(split.earlierFlow + i, Q);
    v128.store(split.earlierPressure + i, p);
    low = lesser(low, p);
    high = greater(high, p);
  }
  const most = max<f64>(lane0(high), lane1(high));
  return (most - min<f64>(lane0(low), lane1(low))) / most;
}

function commonPressure(split: Split, total: f64): f64 {
  const end = <usize>split.branches * 8;
  let weight: f64 = 0;
  let p: f64 = 0;
  for (let i: usize = 0; i < end; i += 16) {
    const w = mul(v128.load(split.count + i), v128.load(split.flow + i));
    const dp = v128.load(split.pressure + i);
    const inverse = div(all(1), dp);
    const a = sub(all(2), mul(v128.load(split.slope + i), inverse));
    const force = mul(w, dp);
    weight = weight + lane0(w) + lane1(w);
    p = p + lane0(force) + lane1(force);
    v128.store(split.linear + i, a);
    v128.store(split.square + i, mul(mul(all(4), sub(all(1), a)), inverse));
    v128.store(split.perPressure + i, mul(w, inverse));
  }
  p /= weight;
  for (let step = 0; step < 30; step++) {
    let sum: f64 = 0;
    let rate: f64 = 0;
    const now = all(p);
    const twice = all(2 * p);
    for (let i: usize = 0; i < end; i += 16) {
      const a = v128.load(split.linear + i);
      const q = v128.load(split.perPressure + i);
      const side = root(add(mul(a, a), mul(v128.load(split.square + i), now)));
      const both = add(a, side);
      const shared = div(q, mul(side, both));
      const flow = mul(mul(twice, side), shared);
      const rises = mul(both, shared);
      sum = sum + lane0(flow) + lane1(flow);
      rate = rate + lane0(rises) + lane1(rises);
    }
    const next = max<f64>(0.1 * p, p + (total - sum) / rate);
    const moved = Math.abs(next - p);
    p = next;
    if (moved < 1e-9 * p) break;
  }
  return p;
}

/** `channelPressure` of two branches, and what they lose besides. */
// @ts-ignore: decorator
@inline function askTwo(plate: Plate, split: Split, i: usize, next: usize): void {
  const panels = plate.panels;
  const scratch = plate.scratch;
  const flow = split.flow;
  const loss = split.loss;
  const pressure = split.pressure;
  const slope = split.slope;
  const one = <usize>load<i32>(split.shapes + i * 4);
  const two = <usize>load<i32>(split.shapes + next * 4);
  const row1 = plate.shape + one * SHAPE;
  const row2 = plate.shape + two * SHAPE;
  const panel1 = plate.panel + one * <usize>panels * PANEL;
  const panel2 = plate.panel + two * <usize>panels * PANEL;
  const Q = both(flow + i * 8, flow + next * 8);
  const Q2 = mul(Q, Q);
  const inverse = div(all(1), Q);
  let friction = all(0);
  let excess = all(0);
  let rise = all(0);
  let bendRise = all(0);
  let sumBefore = all(0);
  let zBefore = all(0);
  const meanRe = mul(both(row1 + S_REYNOLDS, row2 + S_REYNOLDS), Q);
  let apartFriction = both(row1 + S_SEPARATION, row2 + S_SEPARATION);
  const rushes = f64x2.gt(meanRe, all(FULLY_TURBULENT));
  if (v128.any_true(rushes)) {
    const f = turbulentFriction(meanRe, both(row1 + S_ROUGH, row2 + S_ROUGH));
    apartFriction = pick(f, apartFriction, rushes);
  }
  let at1 = panel1;
  let at2 = panel2;
  let out = scratch;
  for (let p = 0; p < panels; p++, at1 += PANEL, at2 += PANEL, out += 16) {
    const Re = mul(both(at1 + P_REYNOLDS, at2 + P_REYNOLDS), Q);
    const d = both(at1 + P_DEVELOPED, at2 + P_DEVELOPED);
    const entry = mul(both(at1 + P_ENTRY, at2 + P_ENTRY), Q2);
    const z = mul(both(at1 + P_REACH, at2 + P_REACH), inverse);
    const sum = root(mul(z, add(mul(mul(d, d), z), all(3.44 * 3.44))));
    const settled = mul(mul(entry, d), sub(z, zBefore));
    const growing = sub(mul(entry, sub(sum, sumBefore)), settled);
    const delta = both(at1 + P_BEND, at2 + P_BEND);
    const dean = mul(Re, delta);
    const curls = f64x2.gt(dean, all(WHITE_FROM));
    let factor = all(0);
    if (v128.any_true(curls)) {
      factor = v128.and(curls, sub(read(white, root(dean)), all(1)));
    }
    const calm = f64x2.le(Re, all(LAMINAR_LIMIT));
    const whole = add(settled, growing);
    let panelBend = mul(factor, whole);
    let rub = settled;
    let grows = growing;
    let rises = add(settled, mul(all(1.5), growing));
    let bendRises = v128.and(
      f64x2.gt(factor, all(0)),
      add(mul(all(1.1), panelBend), mul(all(0.36), add(whole, panelBend))),
    );
    if (!i64x2.all_true(calm)) {
      const fast = greater(Re, all(FULLY_TURBULENT));
      const t = div(sub(Re, all(LAMINAR_LIMIT)), all(FULLY_TURBULENT - LAMINAR_LIMIT));
      const w = pick(all(1), smooth(t), f64x2.ge(Re, all(FULLY_TURBULENT)));
      const still = sub(all(1), w);
      const f = turbulentFriction(fast, both(at1 + P_ROUGH, at2 + P_ROUGH));
      const length = mul(both(at1 + P_LENGTH, at2 + P_LENGTH), Q2);
      const fRe = both(at1 + P_F_RE, at2 + P_F_RE);
      const laminar = div(mul(mul(still, fRe), length), all(LAMINAR_LIMIT));
      const turbulent = mul(mul(w, f), length);
      const away = div(sub(Re, all(FADE_FROM)), all(FADE_TO - FADE_FROM));
      const faded = smooth(lesser(all(1), greater(all(0), away)));
      const left = mul(growing, sub(all(1), faded));
      const more = greater(all(0), sub(div(curvedFriction(fast, delta), f), all(1)));
      const curved = v128.and(f64x2.gt(delta, all(0)), more);
      const bent = add(mul(mul(still, factor), add(laminar, left)), mul(curved, turbulent));
      rub = pick(rub, add(laminar, turbulent), calm);
      grows = pick(grows, left, calm);
      panelBend = pick(panelBend, bent, calm);
      const steep = add(add(mul(all(2), laminar), mul(all(1.9), turbulent)), mul(all(1.5), left));
      rises = pick(rises, steep, calm);
      bendRises = pick(bendRises, mul(all(1.9), bent), calm);
    }
    friction = add(friction, rub);
    excess = add(excess, grows);
    rise = add(rise, rises);
    bendRise = add(bendRise, bendRises);
    v128.store(out, panelBend);
    sumBefore = sum;
    zBefore = z;
  }
  const lobe1 = plate.lobe + one * <usize>MAX_LOBES * LOBE;
  const lobe2 = plate.lobe + two * <usize>MAX_LOBES * LOBE;
  const curvature1 = curvatureOf(panel1, panels, row1, lobe1, scratch, lane0(Q), lane0(apartFriction));
  const bendSum1 = bendSum;
  const curvature2 = curvatureOf(panel2, panels, row2, lobe2, scratch + 8, lane1(Q), lane1(apartFriction));
  const curvature = f64x2.replace_lane(all(curvature1), 1, curvature2);
  const bends = f64x2.replace_lane(all(bendSum1), 1, bendSum);
  const inlet = mul(both(row1 + S_INLET, row2 + S_INLET), Q2);
  const i2 = mul(inlet, inlet);
  const e2 = mul(excess, excess);
  const start = root(root(add(mul(i2, i2), mul(e2, e2))));
  const recovers = div(sub(meanRe, all(1000)), all(9000));
  const recovery = smooth(lesser(all(1), greater(all(0), recovers)));
  const lost = both(row1 + S_WIDENING, row2 + S_WIDENING);
  const recovered = both(row1 + S_RECOVERED, row2 + S_RECOVERED);
  const widening = mul(add(lost, mul(recovery, sub(recovered, lost))), Q2);
  const creep = mul(both(row1 + S_CREEP, row2 + S_CREEP), Q);
  const exit = mul(both(row1 + S_EXIT, row2 + S_EXIT), Q2);
  const drop = add(add(add(add(add(friction, start), curvature), widening), creep), exit);
  const apart = greater(all(0), sub(curvature, bends));
  const ends = add(add(sub(start, excess), widening), exit);
  const told = add(
    add(add(add(rise, bendRise), mul(all(2.1), apart)), mul(all(2), ends)),
    creep,
  );
  const shade = mul(mul(both(loss + i * 8, loss + next * 8), Q), Q);
  put(pressure + i * 8, pressure + next * 8, add(drop, shade));
  put(slope + i * 8, slope + next * 8, add(told, mul(all(2), shade)));
}
