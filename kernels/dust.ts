/**
 * `laySteps` and `marchClass` of `src/measures/analyses/dust-steps.ts` and `dust-march.ts` in
 * AssemblyScript with SIMD: two channel shapes side by side, one in each lane. The model and its sources are told there; every lane does the same
 * operations in the same order, so that results are the same to the last bit (a test compares them).
 * Built by `node kernels/build.mjs` into `src/measures/analyses/dust-wasm.ts`.
 *
 * Addresses are in bytes.
 */

// @ts-ignore: decorator
@inline function add(a: v128, b: v128): v128 { return f64x2.add(a, b); }
// @ts-ignore: decorator
@inline function sub(a: v128, b: v128): v128 { return f64x2.sub(a, b); }
// @ts-ignore: decorator
@inline function mul(a: v128, b: v128): v128 { return f64x2.mul(a, b); }
// @ts-ignore: decorator
@inline function all(a: f64): v128 { return f64x2.splat(a); }
// @ts-ignore: decorator
@inline function pick(a: v128, b: v128, mask: v128): v128 { return v128.bitselect(a, b, mask); }

// Columns of a step for two shapes, in bytes: those of `STEP_COLUMNS`, eight times.
const DS: usize = 0;
const KX: usize = 16;
const KY: usize = 32;
const SPEED: usize = 48;
const LOG_RATE: usize = 64;
const SPREAD: usize = 80;
const OUTER_X: usize = 96;
const OUTER_Y: usize = 112;
const POCKET: usize = 128;
const OPEN: usize = 144;
const SIDE_X: usize = 160;
const SIDE_Y: usize = 176;
const FACING: usize = 192;
const WIDTH: usize = 208;
const PER_BORE: usize = 224;
const TIME: usize = 240;
const PER_TIME: usize = 256;
const TURN_X: usize = 272;
const TURN_Y: usize = 288;
const SQUARE: usize = 304;
const SHEAR: usize = 320;
const NEWS: usize = 336;
const BENT: usize = 352;
const STEP: usize = 368;

const BALLISTIC_STOKES: f64 = 0.5;
const SHEAR_4: f64 = 0.2 * 0.2 * 0.2 * 0.2;
const STRIP_rad: f64 = (60.0 * 3.141592653589793) / 180.0;

/** The rational form behind `decay`, upside down. */
// @ts-ignore: decorator
@inline function power(x: v128): v128 {
  const fourth = add(all(1.0 / 6.0), mul(x, all(1.0 / 24.0)));
  return add(all(1), mul(x, add(all(1), mul(x, add(all(0.5), mul(x, fourth))))));
}

/** `tabulatedBendRate` from a table of -20..12 octaves, 32 to each. */
// @ts-ignore: decorator
@inline function bendRate(rates: usize, logStokes: v128): v128 {
  const held = f64x2.pmin(all(12.0 - 0.001), f64x2.pmax(all(-20.0), logStokes));
  const at = mul(sub(held, all(-20)), all(32));
  const cell = f64x2.floor(at);
  // Adding 2^52 leaves the whole number in the low bits.
  const bits = add(cell, all(4503599627370496.0));
  const a = v128.load(rates + (<usize>i64x2.extract_lane(bits, 0) & 1023) * 8);
  const b = v128.load(rates + (<usize>i64x2.extract_lane(bits, 1) & 1023) * 8);
  const low = v128.shuffle<f64>(a, b, 0, 2);
  const high = v128.shuffle<f64>(a, b, 1, 3);
  return add(low, mul(sub(at, cell), sub(high, low)));
}

/** `boreOverlap`. */
// @ts-ignore: decorator
@inline function boreOverlap(shift: v128): v128 {
  const open = sub(all(1), f64x2.pmin(all(1), shift));
  return mul(mul(open, f64x2.sqrt(open)), sub(all(1.227), mul(all(0.227), open)));
}

/** `mouthCover`. */
// @ts-ignore: decorator
@inline function mouthCover(cosine: v128, width: v128): v128 {
  const x = f64x2.pmin(all(1), f64x2.abs(cosine));
  const cubic = add(all(-0.2121144), mul(x, sub(all(0.074261), mul(x, all(0.0187293)))));
  const angle = mul(f64x2.sqrt(sub(all(1), x)), add(all(1.5707288), mul(x, cubic)));
  const off = pick(sub(all(3.141592653589793), angle), angle, f64x2.lt(cosine, all(0)));
  const reach = sub(add(all(STRIP_rad), mul(all(0.5), width)), off);
  const overlap = f64x2.pmin(f64x2.pmin(reach, all(2 * STRIP_rad)), width);
  return f64x2.div(f64x2.pmax(all(0), overlap), all(2 * STRIP_rad));
}

/** `log2` of `src/numeric/logarithm.ts`, for positive normal numbers. */
function log2(x: f64): f64 {
  const e = ((<i32>(reinterpret<i64>(x) >> 32) + 0x95f64) >> 20) - 1023;
  const f = x * reinterpret<f64>((<i64>(1023 - e)) << 52) - 1.0;
  if (f === 0) return <f64>e;
  const s = f / (2.0 + f);
  const hfsq = 0.5 * f * f;
  const z = s * s;
  const w = z * z;
  const odd = z * (L1 + w * (L3 + w * (L5 + w * L7)));
  const r = s * (hfsq + (w * (L2 + w * (L4 + w * L6)) + odd));
  const scaled = 134217729.0 * (f - hfsq);
  const head = scaled - (scaled - (f - hfsq));
  const tail = f - head - hfsq + r;
  const valHead = head * INVERSE_LN2_HEAD;
  const valTail = (tail + head) * INVERSE_LN2_TAIL + tail * INVERSE_LN2_HEAD;
  const whole = <f64>e + valHead;
  return valTail + (<f64>e - whole + valHead) + whole;
}

const L1: f64 = 6.66666666666673513e-1;
const L2: f64 = 3.999999999940941908e-1;
const L3: f64 = 2.857142874366239149e-1;
const L4: f64 = 2.222219843214978396e-1;
const L5: f64 = 1.818357216161805012e-1;
const L6: f64 = 1.531383769920937332e-1;
const L7: f64 = 1.479819860511658591e-1;
const INVERSE_LN2_HEAD: f64 = 1.44269504072144627571;
const INVERSE_LN2_TAIL: f64 = 1.67517131648865118353e-10;
const LN2: f64 = 0.6931471805599453;
const NEAR: f64 = 0.2;

/**
 * `laySteps` for two shapes.
 *
 * @param stations curvature in the carried frame, bore and area at each station [stations x 4 x 2].
 * @param streams of both: turbulence, an eighth of the friction, flow [m mm2/s], station distance [mm];
 * receives the turning behind them [5 x 2].
 * @param outer whether to lay the way to the outer wall.
 */
export function lay(
  stations: usize,
  last: i32,
  stride: i32,
  streams: usize,
  outer: i32,
  table: usize,
): void {
  const eighth = v128.load(streams, 16);
  const flow = v128.load(streams, 32);
  const ds = v128.load(streams, 48);
  const perFlow = f64x2.div(all(1), flow);
  let length = mul(ds, all(<f64>stride));
  let share = all(1.0 / <f64>(2 * stride));
  let perLength = f64x2.div(all(1), length);
  let outerX = all(0);
  let outerY = all(0);
  let turning = all(0);
  let nearRate = all(0);
  let nearLog = all(0);
  let logBefore = all(NaN);
  let lengthBefore = all(NaN);
  for (let from = 0; from < last; from += stride, table += STEP) {
    const to = min<i32>(last, from + stride);
    if (to - from < stride) {
      length = mul(ds, all(<f64>(to - from)));
      share = all(1.0 / <f64>(2 * (to - from)));
      perLength = f64x2.div(all(1), length);
    }
    const a = stations + <usize>from * 64;
    const b = stations + <usize>to * 64;
    let kx = add(v128.load(a), v128.load(b));
    let ky = add(v128.load(a, 16), v128.load(b, 16));
    let bore = add(v128.load(a, 32), v128.load(b, 32));
    let area = add(v128.load(a, 48), v128.load(b, 48));
    for (let i = a + 64; i < b; i += 64) {
      kx = add(kx, mul(all(2), v128.load(i)));
      ky = add(ky, mul(all(2), v128.load(i, 16)));
      bore = add(bore, mul(all(2), v128.load(i, 32)));
      area = add(area, mul(all(2), v128.load(i, 48)));
    }
    kx = mul(kx, share);
    ky = mul(ky, share);
    bore = mul(bore, share);
    area = mul(area, share);
    const perBore = f64x2.div(all(1), bore);
    const speed = f64x2.div(flow, area);
    const bores = mul(mul(length, perBore), all(1.0 / 3.0));
    const spread = sub(all(1), f64x2.div(all(1), power(bores)));
    const perTime = mul(all(1e3), speed);
    const rate = f64x2.pmax(all(1e-9), mul(perTime, perBore));
    let y = f64x2.div(sub(rate, nearRate), add(rate, nearRate));
    const far = f64x2.gt(f64x2.abs(y), all(NEAR));
    if (v128.any_true(far)) {
      nearRate = pick(rate, nearRate, far);
      if (i64x2.extract_lane(far, 0)) {
        nearLog = f64x2.replace_lane(nearLog, 0, log2(f64x2.extract_lane(rate, 0)));
      }
      if (i64x2.extract_lane(far, 1)) {
        nearLog = f64x2.replace_lane(nearLog, 1, log2(f64x2.extract_lane(rate, 1)));
      }
      y = v128.andnot(y, far);
    }
    const y2 = mul(y, y);
    const series = add(all(1), mul(y2, add(all(1.0 / 3.0), mul(y2, all(1.0 / 5.0)))));
    const logRate = add(nearLog, mul(mul(all(2.0 / LN2), y), series));
    const changed = v128.or(f64x2.ne(logRate, logBefore), f64x2.ne(length, lengthBefore));
    logBefore = logRate;
    lengthBefore = length;
    const square = mul(speed, speed);
    const shear = mul(square, eighth);
    v128.store(table, length, DS);
    v128.store(table, kx, KX);
    v128.store(table, ky, KY);
    v128.store(table, speed, SPEED);
    v128.store(table, logRate, LOG_RATE);
    v128.store(table, spread, SPREAD);
    v128.store(table, all(-1), POCKET);
    v128.store(table, perBore, PER_BORE);
    v128.store(table, mul(mul(mul(all(1e-3), length), area), perFlow), TIME);
    v128.store(table, mul(perTime, perLength), PER_TIME);
    v128.store(table, mul(f64x2.neg(kx), length), TURN_X);
    v128.store(table, mul(f64x2.neg(ky), length), TURN_Y);
    v128.store(table, square, SQUARE);
    v128.store(table, mul(shear, shear), SHEAR);
    store<u32>(table, i64x2.bitmask(changed), NEWS);
    const bent = mul(length, f64x2.sqrt(add(mul(kx, kx), mul(ky, ky))));
    v128.store(table, bent, BENT);
    turning = add(turning, bent);
    if (outer) {
      outerX = add(outerX, mul(spread, sub(f64x2.neg(kx), outerX)));
      outerY = add(outerY, mul(spread, sub(f64x2.neg(ky), outerY)));
      const norm = f64x2.sqrt(add(mul(outerX, outerX), mul(outerY, outerY)));
      const leads = f64x2.gt(norm, all(1e-12));
      v128.store(table, v128.and(leads, f64x2.div(outerX, norm)), OUTER_X);
      v128.store(table, v128.and(leads, f64x2.div(outerY, norm)), OUTER_Y);
    }
  }
  v128.store(streams, turning, 64);
}

/**
 * Moves all classes through the steps of two shapes.
 *
 * @param table steps of both [steps x 23 x 2].
 * @param streams of both: share of turbulence first.
 * @param dust per class: relaxation time, a thousand times it, its inverse, log2, lift, rebound [classes x 6].
 * @param rates table of laminar bend rates.
 * @param flying weight of the geometry below which it is left out.
 * @param out receives carried, skimming and kept on walls [classes x 3 x 2].
 * @param pockets is added what each pocket keeps [pockets x classes x 2]; 0 for shapes without any.
 */
export function march(
  table: usize,
  count: i32,
  streams: usize,
  dust: usize,
  classes: i32,
  rates: usize,
  flying: f64,
  out: usize,
  pockets: usize,
): void {
  const end = table + <usize>count * STEP;
  const turbulent = v128.load(streams);
  for (let index = 0; index < classes; index++, dust += 48, out += 48) {
    const relaxation = v128.load64_splat(dust);
    const thousand = v128.load64_splat(dust, 8);
    const perRelaxation = v128.load64_splat(dust, 16);
    const logRelaxation = v128.load64_splat(dust, 24);
    const lift = v128.load64_splat(dust, 32);
    const rebound = v128.load64_splat(dust, 40);
    let carried = all(1);
    let skimming = all(0);
    let onWalls = all(0);
    let slipX = all(0);
    let slipY = all(0);
    let driftX = all(0);
    let driftY = all(0);
    let lowX = all(0);
    let highX = all(0);
    let lowY = all(0);
    let highY = all(0);
    let left = all(1);
    let rate = all(0);
    let ballistic = all(0);
    let stopping = all(0);
    let fade = all(0);
    let gain = all(0);
    let wall = all(0);
    let stroke = all(0);
    for (let j = table; j < end; j += STEP) {
      const news = load<u32>(j, NEWS);
      if (news) {
        const newRate = v128.load(j, LOG_RATE);
        const speed = v128.load(j, SPEED);
        const stoppingNow = mul(thousand, speed);
        const stokes = mul(stoppingNow, v128.load(j, PER_BORE));
        const laminar = bendRate(rates, add(logRelaxation, newRate));
        const rateNow = add(laminar, mul(turbulent, sub(mul(all(2.823), stokes), laminar)));
        const lost = power(mul(v128.load(j, TIME), perRelaxation));
        const stokes2 = mul(stokes, stokes);
        const heavy = add(stokes2, all(BALLISTIC_STOKES * BALLISTIC_STOKES));
        const both = f64x2.div(all(1), mul(lost, heavy));
        const ballisticNow = mul(mul(stokes2, lost), both);
        const fadeNow = mul(heavy, both);
        const wallNow = mul(v128.load(j, SHEAR), lift);
        const strokeNow = mul(v128.load(j, SQUARE), rebound);
        const gainNow = mul(mul(sub(all(1), fadeNow), relaxation), v128.load(j, PER_TIME));
        if (news === 3) {
          rate = rateNow;
          ballistic = ballisticNow;
          stopping = stoppingNow;
          fade = fadeNow;
          gain = gainNow;
          wall = wallNow;
          stroke = strokeNow;
        } else {
          // 1 for the first lane alone, 2 for the second.
          const changed = i64x2.replace_lane(i64x2.splat(<i64>news - 2), 1, 1 - <i64>news);
          rate = pick(rateNow, rate, changed);
          ballistic = pick(ballisticNow, ballistic, changed);
          stopping = pick(stoppingNow, stopping, changed);
          fade = pick(fadeNow, fade, changed);
          gain = pick(gainNow, gain, changed);
          wall = pick(wallNow, wall, changed);
          stroke = pick(strokeNow, stroke, changed);
        }
      }
      const turnX = v128.load(j, TURN_X);
      const turnY = v128.load(j, TURN_Y);
      const nextX = add(mul(fade, slipX), mul(gain, turnX));
      const nextY = add(mul(fade, slipY), mul(gain, turnY));
      const goneX = add(sub(turnX, nextX), slipX);
      const goneY = add(sub(turnY, nextY), slipY);
      slipX = nextX;
      slipY = nextY;
      const gone = f64x2.sqrt(add(mul(goneX, goneX), mul(goneY, goneY)));
      let flown = all(1);
      const flies = f64x2.gt(ballistic, all(flying));
      if (v128.any_true(flies)) {
        driftX = add(driftX, v128.and(flies, mul(stopping, goneX)));
        driftY = add(driftY, v128.and(flies, mul(stopping, goneY)));
        lowX = f64x2.pmin(lowX, driftX);
        highX = f64x2.pmax(highX, driftX);
        lowY = f64x2.pmin(lowY, driftY);
        highY = f64x2.pmax(highY, driftY);
        const spanX = sub(highX, lowX);
        const spanY = sub(highY, lowY);
        const span = f64x2.sqrt(add(mul(spanX, spanX), mul(spanY, spanY)));
        const overlap = boreOverlap(mul(span, v128.load(j, PER_BORE)));
        const shrinks = v128.and(flies, f64x2.lt(overlap, left));
        if (v128.any_true(shrinks)) {
          flown = pick(f64x2.div(overlap, left), flown, shrinks);
          left = pick(overlap, left, shrinks);
        }
      }
      const slip2 = add(mul(slipX, slipX), mul(slipY, slipY));
      const lost = power(mul(rate, gone));
      const slow = add(all(1), slip2);
      const loose = mul(add(all(1), wall), add(slow, mul(stroke, slip2)));
      const both = f64x2.div(all(1), mul(lost, loose));
      const stays = mul(mul(slow, lost), both);
      const fitted = mul(loose, both);
      const struck = mul(
        carried,
        sub(sub(all(1), fitted), mul(ballistic, sub(flown, fitted))),
      );
      const spread = v128.load(j, SPREAD);
      let bare = struck;
      let skims = mul(skimming, sub(all(1), spread));
      carried = add(carried, sub(sub(skimming, skims), struck));
      const flits = sub(all(1), stays);
      if (pockets !== 0) {
        const pocket = v128.load(j, POCKET);
        const open = f64x2.ge(pocket, all(0));
        if (v128.any_true(open)) {
          const kept = f64x2.div(v128.load(j, OPEN), add(all(1), mul(all(SHEAR_4), wall)));
          const side = add(
            mul(goneX, v128.load(j, SIDE_X)),
            mul(goneY, v128.load(j, SIDE_Y)),
          );
          const cover = mouthCover(f64x2.div(side, gone), v128.load(j, WIDTH));
          const turns = v128.and(open, f64x2.gt(gone, all(1e-12)));
          const hit = v128.and(turns, mul(mul(struck, kept), cover));
          const skims0 = add(skimming, mul(mul(all(0.5), sub(struck, hit)), flits));
          const falls = mul(mul(mul(skims0, spread), kept), v128.load(j, FACING));
          const fallen = v128.and(open, f64x2.pmin(skims, falls));
          const caught = add(hit, fallen);
          if (f64x2.extract_lane(pocket, 0) >= 0) {
            const p = pockets + (<usize>(<i32>f64x2.extract_lane(pocket, 0) * classes + index) << 4);
            store<f64>(p, load<f64>(p) + f64x2.extract_lane(caught, 0));
          }
          if (f64x2.extract_lane(pocket, 1) >= 0) {
            const p = pockets + (<usize>(<i32>f64x2.extract_lane(pocket, 1) * classes + index) << 4);
            store<f64>(p, load<f64>(p, 8) + f64x2.extract_lane(caught, 1), 8);
          }
          bare = sub(bare, hit);
          skims = sub(skims, fallen);
        }
      }
      onWalls = add(onWalls, mul(bare, stays));
      skimming = add(skims, mul(bare, flits));
    }
    v128.store(out, carried);
    v128.store(out, skimming, 16);
    v128.store(out, onWalls, 32);
  }
}
