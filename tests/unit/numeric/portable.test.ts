/**
 * The portable functions against the engine's own (an independent implementation, itself within
 * about 1 unit in the last place), to 2 units in the last place, and against exact special values
 * of ECMA-262.
 */
import { describe, expect, it } from 'vitest';
import {
  acos,
  asin,
  atan,
  atan2,
  cbrt,
  cos,
  cosh,
  createStream,
  exp,
  expm1,
  hypot,
  log,
  log10,
  log1p,
  log2,
  pow,
  sin,
  sinh,
  tan,
  tanh,
} from '../../../src/numeric/index.ts';

const portable = {
  acos,
  asin,
  atan,
  atan2,
  cbrt,
  cos,
  cosh,
  exp,
  expm1,
  hypot,
  log,
  log10,
  log1p,
  log2,
  pow,
  sin,
  sinh,
  tan,
  tanh,
};

const view = new DataView(new ArrayBuffer(8));

/** Position of a double on the line of all doubles, so that neighbours differ by 1. */
function rank(x: number): bigint {
  view.setFloat64(0, x);
  const bits = view.getBigInt64(0);
  return bits < 0n ? -(bits & 0x7fffffffffffffffn) : bits;
}

function unitsApart(a: number, b: number): number {
  if (Number.isNaN(a) || Number.isNaN(b)) return Number.isNaN(a) && Number.isNaN(b) ? 0 : Infinity;
  const d = rank(a) - rank(b);
  return Number(d < 0n ? -d : d);
}

const stream = createStream('numeric', 'portable');
const uniform = (from: number, to: number): number => from + (to - from) * stream.next();
const signedPower = (from: number, to: number): number =>
  (stream.next() < 0.5 ? -1 : 1) * 2 ** uniform(from, to);

const COUNT = 20000;
type Unary =
  | 'sin'
  | 'cos'
  | 'tan'
  | 'asin'
  | 'acos'
  | 'atan'
  | 'exp'
  | 'expm1'
  | 'log'
  | 'log1p'
  | 'log2'
  | 'log10'
  | 'cbrt'
  | 'sinh'
  | 'cosh'
  | 'tanh';

const DRAWS: readonly (readonly [Unary, () => number])[] = [
  ['sin', () => uniform(-10, 10)],
  ['sin', () => signedPower(-30, 19)],
  ['cos', () => uniform(-10, 10)],
  ['cos', () => signedPower(-30, 19)],
  ['tan', () => uniform(-10, 10)],
  ['tan', () => signedPower(-30, 19)],
  ['asin', () => uniform(-1, 1)],
  ['asin', () => signedPower(-40, 0)],
  ['acos', () => uniform(-1, 1)],
  ['acos', () => signedPower(-40, 0)],
  ['atan', () => uniform(-4, 4)],
  ['atan', () => signedPower(-40, 40)],
  ['exp', () => uniform(-2, 2)],
  ['exp', () => uniform(-745, 710)],
  ['expm1', () => uniform(-2, 2)],
  ['expm1', () => uniform(-40, 709)],
  ['expm1', () => signedPower(-50, 0)],
  ['log', () => uniform(0.5, 2)],
  ['log', () => 2 ** uniform(-1074, 1023)],
  ['log1p', () => uniform(-0.99, 3)],
  ['log1p', () => Math.abs(signedPower(-40, 40))],
  ['log1p', () => -Math.abs(signedPower(-40, 0))],
  ['log2', () => uniform(0.5, 2)],
  ['log2', () => 2 ** uniform(-1074, 1023)],
  ['log10', () => uniform(0.5, 2)],
  ['log10', () => 2 ** uniform(-1074, 1023)],
  ['cbrt', () => signedPower(-1074, 1023)],
  ['cbrt', () => uniform(-30, 30)],
  ['sinh', () => uniform(-25, 25)],
  ['sinh', () => signedPower(-40, 9)],
  ['cosh', () => uniform(-25, 25)],
  ['cosh', () => signedPower(-40, 9)],
  ['tanh', () => uniform(-25, 25)],
  ['tanh', () => signedPower(-40, 3)],
];

describe('portable functions', () => {
  it.each(DRAWS.map(([name, draw], i) => [name, i, draw] as const))(
    '%s() stays within 2 units in the last place of the engine (set %i)',
    (name, _set, draw) => {
      let worst = 0;
      let at = 0;
      for (let i = 0; i < COUNT; i++) {
        const x = draw();
        const d = unitsApart(portable[name](x), Math[name](x));
        if (d > worst) {
          worst = d;
          at = x;
        }
      }
      expect(worst, `${name}(${at})`).toBeLessThanOrEqual(2);
    },
  );

  it('sin(), cos() and tan() reduce huge angles exactly', () => {
    // 1e22: published test value of argument reduction (Ng 1992, from memory):
    // sin 1e22 = -0.8522008497671888.
    expect(portable.sin(1e22)).toBe(-0.8522008497671888);
    for (let i = 0; i < 500; i++) {
      const x = signedPower(19, 1023);
      expect(unitsApart(portable.sin(x), Math.sin(x)), `sin ${x}`).toBeLessThanOrEqual(2);
      expect(unitsApart(portable.cos(x), Math.cos(x)), `cos ${x}`).toBeLessThanOrEqual(2);
      expect(unitsApart(portable.tan(x), Math.tan(x)), `tan ${x}`).toBeLessThanOrEqual(2);
    }
  });

  it('sin() keeps its digits beside multiples of pi', () => {
    for (let n = 1; n < 2000; n++) {
      const x = n * Math.PI;
      expect(unitsApart(portable.sin(x), Math.sin(x)), `sin ${x}`).toBeLessThanOrEqual(2);
      expect(unitsApart(portable.cos(x / 2), Math.cos(x / 2)), `cos`).toBeLessThanOrEqual(2);
    }
  });

  it('pow() stays within 2 units in the last place of exact or high-precision powers', () => {
    let worst = 0;
    for (let i = 0; i < COUNT; i++) {
      const x = 2 ** uniform(-20, 20);
      const y = uniform(-30, 30);
      worst = Math.max(worst, unitsApart(portable.pow(x, y), Math.pow(x, y)));
    }
    expect(worst).toBeLessThanOrEqual(2);
    // Integer powers that are exact in a double.
    for (let n = 1; n <= 33; n++) expect(portable.pow(3, n)).toBe(Number(3n ** BigInt(n)));
    for (let n = -1074, power = Number.MIN_VALUE; n < 1024; n++, power += power) {
      expect(portable.pow(2, n)).toBe(power);
    }
  });

  it('pow() over the whole range agrees with the engine, subnormal results included', () => {
    let worst = 0;
    for (let i = 0; i < COUNT; i++) {
      const x = 2 ** uniform(-1074, 1023);
      const y = uniform(-1080, 1030) / Math.log2(x);
      worst = Math.max(worst, unitsApart(portable.pow(x, y), Math.pow(x, y)));
    }
    expect(worst).toBeLessThanOrEqual(2);
  });

  it('atan2() agrees with the engine in all quadrants', () => {
    let worst = 0;
    for (let i = 0; i < COUNT; i++) {
      const y = signedPower(-40, 40);
      const x = signedPower(-40, 40);
      worst = Math.max(worst, unitsApart(portable.atan2(y, x), Math.atan2(y, x)));
    }
    expect(worst).toBeLessThanOrEqual(2);
  });

  it('hypot() agrees with the engine at all sizes', () => {
    let worst = 0;
    for (let i = 0; i < COUNT; i++) {
      const e = uniform(-1000, 1000);
      const [x, y, z] = [2 ** e, signedPower(e - 5, e + 5), signedPower(e - 5, e + 5)];
      worst = Math.max(worst, unitsApart(portable.hypot(x, y, z), Math.hypot(x, y, z)));
      worst = Math.max(worst, unitsApart(portable.hypot(x, y), Math.hypot(x, y)));
    }
    expect(worst).toBeLessThanOrEqual(2);
    expect(portable.hypot(3, 4)).toBe(5);
    expect(portable.hypot(2, 3, 6)).toBe(7);
    expect(portable.hypot(0, 0)).toBe(0);
  });

  it('special values are those of ECMA-262', () => {
    const specials = [
      0,
      -0,
      1,
      -1,
      0.5,
      -0.5,
      2,
      -2,
      3,
      -3,
      Infinity,
      -Infinity,
      NaN,
      1e300,
      -1e300,
      5e-324,
      1e-310,
    ];
    const unary: Unary[] = [
      'sin',
      'cos',
      'tan',
      'asin',
      'acos',
      'atan',
      'exp',
      'expm1',
      'log',
      'log1p',
      'log2',
      'log10',
      'cbrt',
      'sinh',
      'cosh',
      'tanh',
    ];
    for (const name of unary) {
      for (const x of specials) {
        const mine = portable[name](x);
        const theirs = Math[name](x);
        if (theirs === 0) expect(Object.is(mine, theirs), `${name}(${x}) ${mine}`).toBe(true);
        expect(unitsApart(mine, theirs), `${name}(${x}) = ${mine}, not ${theirs}`).toBeLessThan(2);
      }
    }
    for (const x of specials) {
      for (const y of specials) {
        const pairs = [
          ['pow', portable.pow(x, y), Math.pow(x, y)],
          ['atan2', portable.atan2(x, y), Math.atan2(x, y)],
          ['hypot', portable.hypot(x, y), Math.hypot(x, y)],
        ] as const;
        for (const [name, mine, theirs] of pairs) {
          if (theirs === 0) expect(Object.is(mine, theirs), `${name}(${x}, ${y})`).toBe(true);
          expect(unitsApart(mine, theirs), `${name}(${x}, ${y}) = ${mine}`).toBeLessThan(2);
        }
      }
    }
  });

  it('log2() of a power of two and log10() of a power of ten are exact', () => {
    for (let k = -1022; k < 1024; k++) expect(portable.log2(2 ** k)).toBe(k);
    for (let k = 0; k <= 22; k++) expect(portable.log10(Number(10n ** BigInt(k)))).toBe(k);
  });
});
