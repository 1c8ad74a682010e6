/** PNG pictures of grey and opacity: the few chunks that a thumbnail needs. */
import { zlibSync } from 'fflate';

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
const GREY_WITH_ALPHA = 4;

/**
 * A PNG file of 8-bit grey with alpha, not interlaced.
 *
 * @param pixels grey, alpha per pixel, row by row from the top [height x width x 2].
 * @throws RangeError when the pixels do not fill the picture.
 * Source: PNG specification, third edition (W3C), sections 5, 9, 11.
 */
export function writeGreyPng(pixels: Uint8Array, width: number, height: number): Uint8Array {
  if (pixels.length !== 2 * width * height) {
    throw new RangeError(`${pixels.length} bytes for a picture of ${width} x ${height} x 2.`);
  }
  const header = new Uint8Array(13);
  const view = new DataView(header.buffer);
  view.setUint32(0, width);
  view.setUint32(4, height);
  header.set([8, GREY_WITH_ALPHA, 0, 0, 0], 8);
  const row = 2 * width;
  // Each row begins with the number of its filter: 0, none.
  const lines = new Uint8Array((row + 1) * height);
  for (let j = 0; j < height; j++) {
    lines.set(pixels.subarray(j * row, (j + 1) * row), j * (row + 1) + 1);
  }
  const chunks = [
    Uint8Array.from(SIGNATURE),
    chunk('IHDR', header),
    chunk('IDAT', zlibSync(lines, { level: 9 })),
    chunk('IEND', new Uint8Array(0)),
  ];
  const file = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of chunks) {
    file.set(part, at);
    at += part.length;
  }
  return file;
}

/** Length, name, data and check sum of a chunk. */
function chunk(name: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(12 + data.length);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, data.length);
  for (let k = 0; k < 4; k++) bytes[4 + k] = name.charCodeAt(k);
  bytes.set(data, 8);
  view.setUint32(8 + data.length, crc32(bytes.subarray(4, 8 + data.length)));
  return bytes;
}

/** Check sum of the PNG specification, section 5.5, bit by bit: thumbnails are small. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}
