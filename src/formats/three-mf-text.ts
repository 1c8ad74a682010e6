/** The long lists of a 3MF model as text, written straight into bytes. */
import type { Mesh } from '../solids/index.ts';

/** Decimals tried, fewest first: a plate's coordinates span few magnitudes. */
const FEWEST_DECIMALS = 4;
const FEWEST_STEPS = 1e4;
const MOST_DECIMALS = 7;
/** Greatest magnitude written digit by digit; its steps of 1e-7 are still whole numbers [mm]. */
const PLAIN_LIMIT = 1e6;
/** Longest lines: three coordinates of up to 24 characters, three vertex numbers of up to 10. */
const VERTEX_BYTES = 24 * 3 + 22;
const TRIANGLE_BYTES = 10 * 3 + 30;

const DIGIT_ZERO = 0x30;

interface Text {
  readonly bytes: Uint8Array;
  length: number;
}

/**
 * The `vertex` and `triangle` elements of a mesh, one per line, and what stands between them.
 *
 * Coordinates get the fewest decimals from four to seven that give the same float32, or else the
 * fewest digits.
 */
export function meshLists(mesh: Mesh, between: string): Uint8Array {
  const { vertices, triangles } = mesh;
  const size = (vertices.length / 3) * VERTEX_BYTES + (triangles.length / 3) * TRIANGLE_BYTES;
  const text: Text = { bytes: new Uint8Array(size + between.length), length: 0 };
  for (let v = 0; v < vertices.length; v += 3) {
    putText(text, '<vertex x="');
    putDecimal(text, vertices[v]);
    putText(text, '" y="');
    putDecimal(text, vertices[v + 1]);
    putText(text, '" z="');
    putDecimal(text, vertices[v + 2]);
    putText(text, '"/>\n');
  }
  putText(text, between);
  for (let t = 0; t < triangles.length; t += 3) {
    putText(text, '<triangle v1="');
    putWhole(text, triangles[t], 1);
    putText(text, '" v2="');
    putWhole(text, triangles[t + 1], 1);
    putText(text, '" v3="');
    putWhole(text, triangles[t + 2], 1);
    putText(text, '"/>\n');
  }
  return text.bytes.subarray(0, text.length);
}

/** ASCII only. */
function putText(text: Text, piece: string): void {
  for (let k = 0; k < piece.length; k++) text.bytes[text.length++] = piece.charCodeAt(k);
}

/** Digits of a whole number, with zeros in front up to `width` digits. */
function putWhole(text: Text, value: number, width: number): void {
  let digits = 1;
  for (let bound = 10; value >= bound; bound *= 10) digits++;
  if (digits < width) digits = width;
  text.length += digits;
  let rest = value;
  for (let at = text.length - 1; at >= text.length - digits; at--) {
    const tens = Math.floor(rest / 10);
    text.bytes[at] = DIGIT_ZERO + rest - 10 * tens;
    rest = tens;
  }
}

function putDecimal(text: Text, value: number): void {
  const size = Math.abs(value);
  let steps = FEWEST_STEPS;
  for (let decimals = FEWEST_DECIMALS; decimals <= MOST_DECIMALS; decimals++, steps *= 10) {
    const count = Math.round(size * steps);
    if (size > PLAIN_LIMIT || Math.fround(count / steps) !== size) continue;
    if (value < 0) putText(text, '-');
    const whole = Math.floor(count / steps);
    putWhole(text, whole, 1);
    if (count === whole * steps) return;
    putText(text, '.');
    putWhole(text, count - whole * steps, decimals);
    while (text.bytes[text.length - 1] === DIGIT_ZERO) text.length--;
    return;
  }
  putText(text, fewestDigits(value));
}

/** Shortest decimal of seven, eight or nine digits; nine always give a float32 back. */
function fewestDigits(value: number): string {
  for (let digits = 7; digits < 9; digits++) {
    const rounded = Number(value.toPrecision(digits));
    if (Math.fround(rounded) === value) return String(rounded);
  }
  return String(Number(value.toPrecision(9)));
}
