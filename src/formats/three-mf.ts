/** 3MF packages (core specification): one object with its unit, name and metadata. */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import type { Zippable } from 'fflate';
import { meshLists } from './three-mf-text.ts';
import { escapeXml } from './xml.ts';
import type { Mesh } from '../solids/index.ts';

const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
const CONTENT_TYPES = 'http://schemas.openxmlformats.org/package/2006/content-types';
const RELATIONSHIPS = 'http://schemas.openxmlformats.org/package/2006/relationships';
const MODEL_RELATION = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel';
const THUMBNAIL_RELATION = `${RELATIONSHIPS}/metadata/thumbnail`;
const MODEL_PATH = '3D/3dmodel.model';
const THUMBNAIL_PATH = 'Metadata/thumbnail.png';
/** Zip entries hold local time; one fixed local date keeps the bytes the same everywhere. */
const ENTRY_DATE = '2000-01-01T00:00:00';

/** Lengths of the units of the specification [mm]. */
const UNIT_MM: ReadonlyMap<string, number> = new Map([
  ['micron', 0.001],
  ['millimeter', 1],
  ['centimeter', 10],
  ['inch', 25.4],
  ['foot', 304.8],
  ['meter', 1000],
]);

export interface ThreeMfText {
  /** Shown as title and as the object's name. */
  readonly name: string;
  readonly description: string;
  /** PNG bytes shown by file browsers. */
  readonly thumbnail?: Uint8Array;
}

/**
 * 3MF package of a mesh: unit millimetre, one object, one build item without transform.
 * Coordinates are short decimals that give the same 24 bits back. The same mesh and text
 * give the same bytes.
 *
 * @param mesh closed mesh without degenerate triangles [mm].
 * @returns bytes of the zip container.
 * Source: 3MF Core Specification 1.3 (from memory), Open Packaging Conventions for the container.
 */
export function writeThreeMf(mesh: Mesh, text: ThreeMfText): Uint8Array {
  const files: Zippable = {
    '[Content_Types].xml': strToU8(contentTypes(text.thumbnail !== undefined)),
    '_rels/.rels': strToU8(relations(text.thumbnail !== undefined)),
    [MODEL_PATH]: modelXml(mesh, text),
  };
  if (text.thumbnail !== undefined) files[THUMBNAIL_PATH] = [text.thumbnail, { level: 0 }];
  return zipSync(files, { level: 1, mtime: ENTRY_DATE });
}

function contentTypes(withThumbnail: boolean): string {
  const png = withThumbnail ? '<Default Extension="png" ContentType="image/png"/>' : '';
  return (
    `<?xml version="1.0" encoding="UTF-8"?>\n<Types xmlns="${CONTENT_TYPES}">` +
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>' +
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>' +
    `${png}</Types>\n`
  );
}

function relations(withThumbnail: boolean): string {
  const thumbnail = withThumbnail
    ? `<Relationship Target="/${THUMBNAIL_PATH}" Id="thumbnail" Type="${THUMBNAIL_RELATION}"/>`
    : '';
  return (
    `<?xml version="1.0" encoding="UTF-8"?>\n<Relationships xmlns="${RELATIONSHIPS}">` +
    `<Relationship Target="/${MODEL_PATH}" Id="model" Type="${MODEL_RELATION}"/>` +
    `${thumbnail}</Relationships>\n`
  );
}

function modelXml(mesh: Mesh, text: ThreeMfText): Uint8Array {
  const name = escapeXml(text.name);
  const head = strToU8(
    '<?xml version="1.0" encoding="UTF-8"?>\n' +
      `<model unit="millimeter" xml:lang="en-US" xmlns="${CORE}">\n` +
      `<metadata name="Title">${name}</metadata>\n` +
      `<metadata name="Description">${escapeXml(text.description)}</metadata>\n` +
      '<metadata name="Application">anfract</metadata>\n' +
      `<resources>\n<object id="1" type="model" name="${name}">\n<mesh>\n<vertices>\n`,
  );
  const lists = meshLists(mesh, '</vertices>\n<triangles>\n');
  const tail = strToU8(
    '</triangles>\n</mesh>\n</object>\n</resources>\n<build><item objectid="1"/></build>\n</model>\n',
  );
  const bytes = new Uint8Array(head.length + lists.length + tail.length);
  bytes.set(head);
  bytes.set(lists, head.length);
  bytes.set(tail, head.length + lists.length);
  return bytes;
}

export interface ThreeMfContent {
  /** All objects placed by the build, in one mesh [mm]. */
  readonly mesh: Mesh;
  readonly name: string;
}

/**
 * Mesh of a 3MF package: every build item with its transform, converted to mm.
 *
 * @param bytes the whole file.
 * @throws SyntaxError when it is no zip, has no model part or no mesh, names an unknown unit or
 * vertex, or places an object made of components (assemblies are not read).
 */
export function readThreeMf(bytes: Uint8Array): ThreeMfContent {
  const xml = modelPart(bytes);
  const unit = /<model\b[^>]*\sunit="([^"]*)"/.exec(xml)?.[1] ?? 'millimeter';
  const scale = UNIT_MM.get(unit);
  if (scale === undefined) {
    throw new SyntaxError(`3MF unit is "${unit}"; known are ${[...UNIT_MM.keys()].join(', ')}.`);
  }
  const objects = new Map<string, string>();
  for (const [whole, id] of xml.matchAll(/<object\b[^>]*?\sid="(\d+)"[^>]*>[\s\S]*?<\/object>/g)) {
    objects.set(id, whole);
  }
  const vertices: number[] = [];
  const triangles: number[] = [];
  let name = '';
  for (const [item] of xml.matchAll(/<item\b[^>]*>/g)) {
    const body = objects.get(/\sobjectid="(\d+)"/.exec(item)?.[1] ?? '');
    if (body === undefined || !body.includes('<mesh')) {
      throw new SyntaxError('3MF build item names no object with a mesh; assemblies are not read.');
    }
    const transform = /\stransform="([^"]*)"/.exec(item)?.[1];
    appendObject(body, transform, scale, vertices, triangles);
    name ||= /<object\b[^>]*?\sname="([^"]*)"/.exec(body)?.[1] ?? '';
  }
  if (triangles.length === 0) throw new SyntaxError('3MF model holds no triangles.');
  const mesh = { vertices: Float32Array.from(vertices), triangles: Uint32Array.from(triangles) };
  return { mesh, name: unescapeXml(name) };
}

function modelPart(bytes: Uint8Array): string {
  let files: Record<string, Uint8Array>;
  try {
    files = unzipSync(bytes, { filter: (file) => file.name.toLowerCase().endsWith('.model') });
  } catch (cause) {
    throw new SyntaxError('3MF file is not a readable zip container.', { cause });
  }
  const path = Object.keys(files).toSorted()[0];
  if (path === undefined) throw new SyntaxError('3MF package holds no .model part.');
  return strFromU8(files[path]);
}

function appendObject(
  body: string,
  transform: string | undefined,
  scale: number,
  vertices: number[],
  triangles: number[],
): void {
  const m = (transform ?? '1 0 0 0 1 0 0 0 1 0 0 0').trim().split(/\s+/).map(Number);
  const base = vertices.length / 3;
  for (const [tag] of body.matchAll(/<vertex\b[^>]*>/g)) {
    const [x, y, z] = [attribute(tag, 'x'), attribute(tag, 'y'), attribute(tag, 'z')];
    for (let k = 0; k < 3; k++) {
      const value = (x * m[k] + y * m[3 + k] + z * m[6 + k] + m[9 + k]) * scale;
      if (!Number.isFinite(value)) throw new SyntaxError(`3MF vertex is not a number: ${tag}`);
      vertices.push(value);
    }
  }
  const count = vertices.length / 3 - base;
  for (const [tag] of body.matchAll(/<triangle\b[^>]*>/g)) {
    for (const key of ['v1', 'v2', 'v3']) {
      const v = attribute(tag, key);
      if (!(v >= 0 && v < count)) throw new SyntaxError(`3MF triangle names no vertex: ${tag}`);
      triangles.push(base + v);
    }
  }
}

function attribute(tag: string, key: string): number {
  const found = new RegExp(`\\s${key}="([^"]*)"`).exec(tag);
  return found === null ? Number.NaN : Number(found[1]);
}

function unescapeXml(text: string): string {
  return text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&apos;', "'")
    .replaceAll('&amp;', '&');
}
