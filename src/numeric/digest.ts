/** SHA-256, for naming files by their content where no library of the host may be used. */

/** Round constants: the first 32 bits of the fractions of the cube roots of the first 64 primes. */
const K = Uint32Array.from(
  (
    '428a2f98 71374491 b5c0fbcf e9b5dba5 3956c25b 59f111f1 923f82a4 ab1c5ed5 d807aa98 12835b01 ' +
    '243185be 550c7dc3 72be5d74 80deb1fe 9bdc06a7 c19bf174 e49b69c1 efbe4786 0fc19dc6 240ca1cc ' +
    '2de92c6f 4a7484aa 5cb0a9dc 76f988da 983e5152 a831c66d b00327c8 bf597fc7 c6e00bf3 d5a79147 ' +
    '06ca6351 14292967 27b70a85 2e1b2138 4d2c6dfc 53380d13 650a7354 766a0abb 81c2c92e 92722c85 ' +
    'a2bfe8a1 a81a664b c24b8b70 c76c51a3 d192e819 d6990624 f40e3585 106aa070 19a4c116 1e376c08 ' +
    '2748774c 34b0bcb5 391c0cb3 4ed8aa4a 5b9cca4f 682e6ff3 748f82ee 78a5636f 84c87814 8cc70208 ' +
    '90befffa a4506ceb bef9a3f7 c67178f2'
  )
    .split(' ')
    .map((word) => Number.parseInt(word, 16)),
);

/** First 32 bits of the fractions of the square roots of the first eight primes. */
const START = [
  0x6a09e667, 0xbb67ae85, 0x3c6ef372, 0xa54ff53a, 0x510e527f, 0x9b05688c, 0x1f83d9ab, 0x5be0cd19,
];

const BLOCK = 64;

function turn(word: number, by: number): number {
  return (word >>> by) | (word << (32 - by));
}

/** Mixes one block of 64 bytes, from `from` on, into the state. */
function mix(state: Uint32Array, bytes: Uint8Array, from: number, w: Uint32Array): void {
  for (let t = 0; t < 16; t++) {
    const at = from + 4 * t;
    w[t] = (bytes[at] << 24) | (bytes[at + 1] << 16) | (bytes[at + 2] << 8) | bytes[at + 3];
  }
  for (let t = 16; t < 64; t++) {
    const p = w[t - 15];
    const q = w[t - 2];
    const s0 = turn(p, 7) ^ turn(p, 18) ^ (p >>> 3);
    const s1 = turn(q, 17) ^ turn(q, 19) ^ (q >>> 10);
    w[t] = w[t - 16] + s0 + w[t - 7] + s1;
  }
  let [a, b, c, d, e, f, g, h] = state;
  for (let t = 0; t < 64; t++) {
    const s1 = turn(e, 6) ^ turn(e, 11) ^ turn(e, 25);
    const s0 = turn(a, 2) ^ turn(a, 13) ^ turn(a, 22);
    const t1 = (h + s1 + ((e & f) ^ (~e & g)) + K[t] + w[t]) | 0;
    const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    h = g;
    g = f;
    f = e;
    e = (d + t1) | 0;
    d = c;
    c = b;
    b = a;
    a = (t1 + t2) | 0;
  }
  [a, b, c, d, e, f, g, h].forEach((word, i) => (state[i] += word));
}

/**
 * SHA-256 of bytes, as 64 hexadecimal digits.
 *
 * @example sha256(new Uint8Array(0)).slice(0, 16) // 'e3b0c44298fc1c14'
 * Source: FIPS 180-4, 2015.
 */
export function sha256(bytes: Uint8Array): string {
  const state = Uint32Array.from(START);
  const w = new Uint32Array(64);
  const whole = bytes.length - (bytes.length % BLOCK);
  for (let from = 0; from < whole; from += BLOCK) mix(state, bytes, from, w);
  const rest = bytes.length - whole;
  const tail = new Uint8Array(rest < BLOCK - 8 ? BLOCK : 2 * BLOCK);
  tail.set(bytes.subarray(whole));
  tail[rest] = 0x80;
  const bits = new DataView(tail.buffer);
  bits.setUint32(tail.length - 8, Math.floor(bytes.length / 0x2000_0000));
  bits.setUint32(tail.length - 4, (bytes.length << 3) >>> 0);
  for (let from = 0; from < tail.length; from += BLOCK) mix(state, tail, from, w);
  return Array.from(state, (word) => word.toString(16).padStart(8, '0')).join('');
}
