/** A view as the text behind the step in an address, and back; it may have been written by anybody. */
import { FIRST_VIEW, heldView } from '../solid/view.ts';
import type { View as Eye } from '../solid/view.ts';

type Span = readonly [number, number];

export const SHADES_IN_LINKS = ['velocity', 'thickness', 'overhang', 'dust'] as const;
const SHOWN = ['part', 'air', 'both'] as const;
const AXES = ['x', 'y', 'z'] as const;

/** What the view of parts in 3D shows, see `solid/look.ts`. */
export interface SolidView {
  readonly eye: Eye;
  readonly shown: (typeof SHOWN)[number];
  readonly shade: (typeof SHADES_IN_LINKS)[number] | null;
  readonly cut: {
    readonly axis: 0 | 1 | 2;
    readonly share: number;
    readonly other: boolean;
  } | null;
  readonly isLit: boolean;
  /** Layer looked at; null for the one of which most hangs. */
  readonly layer: number | null;
}

export interface View {
  /** First digits of the front file's digest. */
  readonly front: string;
  readonly x: string;
  readonly y: string;
  readonly size: string;
  /** How the third measure shows. */
  readonly thirdAs: 'size' | 'shade';
  /** The part of the scatter looked at; null for all of it. */
  readonly window: { readonly x: Span; readonly y: Span } | null;
  /** Axes of the parallel coordinates in order; null for the front's own choice. */
  readonly axes: readonly string[] | null;
  /** Measures of the scatter matrix beside the objectives. */
  readonly matrix: readonly string[];
  readonly ranges: Readonly<Record<string, Span>>;
  /** Ids of the designs selected. */
  readonly designs: readonly string[];
  /** Axes of the comparison, and what it is judged by. */
  readonly compared: {
    readonly x: string;
    readonly y: string;
    readonly by: 'objectives' | 'axes';
  };
  readonly solid: SolidView;
}

/** A view of which nothing but the front is chosen. */
export const PLAIN_VIEW: Omit<View, 'front'> = {
  x: '',
  y: '',
  size: '',
  thirdAs: 'size',
  window: null,
  axes: null,
  matrix: [],
  ranges: {},
  designs: [],
  compared: { x: '', y: '', by: 'objectives' },
  solid: {
    eye: FIRST_VIEW,
    shown: 'part',
    shade: null,
    cut: null,
    isLit: false,
    layer: null,
  },
};

/** Digits of the digest in a link: 64 bits tell any two fronts apart that one person ever meets. */
export const DIGITS = 16;
const MOST_DESIGNS = 50;
const MOST_AXES = 40;
/** Digits of angles, shares and spans in a link: finer than a screen shows. */
const FINE = 5;

/**
 * Text of a view for an address; it says nothing of what is as usual.
 *
 * @example writeView({ ...PLAIN_VIEW, front: '00ff00ff00ff00ff', x: 'mass_g', ranges: { mass_g: [1, 2.5] }, designs: ['d001'] }) // 'front=00ff00ff00ff00ff&x=mass_g&range=mass_g*1*2.5&designs=d001'
 */
export function writeView(view: View): string {
  const query = new URLSearchParams({ front: view.front.slice(0, DIGITS) });
  const put = (key: string, value: string, usual = ''): void => {
    if (value !== usual) query.set(key, value);
  };
  put('x', view.x);
  put('y', view.y);
  put('size', view.size);
  put('as', view.thirdAs, 'size');
  if (view.window !== null) put('window', numbers([...view.window.x, ...view.window.y], 12));
  if (view.axes !== null) put('axes', view.axes.slice(0, MOST_AXES).join('.'));
  put('matrix', view.matrix.join('.'));
  for (const [id, [low, high]] of Object.entries(view.ranges)) {
    query.append('range', `${id}*${low}*${high}`);
  }
  put('designs', view.designs.slice(0, MOST_DESIGNS).join('.'));
  put('cx', view.compared.x);
  put('cy', view.compared.y);
  put('by', view.compared.by, 'objectives');
  writeSolid(view.solid, put);
  return query.toString();
}

function writeSolid(
  { eye, shown, shade, cut, isLit, layer }: SolidView,
  put: (key: string, value: string, usual?: string) => void,
): void {
  put('eye', eyeText(eye), eyeText(FIRST_VIEW));
  put('show', shown, 'part');
  put('shade', shade ?? '');
  if (cut !== null) {
    put('cut', `${AXES[cut.axis]}*${numbers([cut.share])}${cut.other ? '*other' : ''}`);
  }
  put('lit', isLit ? '1' : '');
  put('layer', layer === null ? '' : String(layer));
}

function eyeText({ turn_deg, raise_deg, zoom, panX, panY }: Eye): string {
  return numbers([turn_deg, raise_deg, zoom, panX, panY]);
}

function numbers(values: readonly number[], digits = FINE): string {
  return values.map((value) => Number(value.toPrecision(digits))).join('*');
}

const MEASURE = /^[A-Za-z]\w{0,59}$/u;

/** The view of an address, or null where it holds none. What cannot be read in it is left out. */
export function readView(text: string): View | null {
  const query = new URLSearchParams(text);
  const read = (key: string): string => query.get(key) ?? '';
  const front = read('front');
  if (!/^[0-9a-f]{16}$/u.test(front)) return null;
  const ranges: Record<string, Span> = {};
  for (const range of query.getAll('range')) {
    const [id, ...ends] = range.split('*');
    const found = numbersOf(ends, 2);
    if (MEASURE.test(id) && found !== null) ranges[id] = ordered(found[0], found[1]);
  }
  const measure = (key: string): string => (MEASURE.test(read(key)) ? read(key) : '');
  const measures = (key: string): string[] =>
    read(key)
      .split('.')
      .filter((id) => MEASURE.test(id))
      .slice(0, MOST_AXES);
  const designs = read('designs')
    .split('.')
    .filter((id) => /^d\d{3,9}$/u.test(id));
  const axes = measures('axes');
  const sides = numbersOf(read('window').split('*'), 4);
  return {
    front,
    x: measure('x'),
    y: measure('y'),
    size: measure('size'),
    thirdAs: read('as') === 'shade' ? 'shade' : 'size',
    window:
      sides === null || sides[0] === sides[1] || sides[2] === sides[3]
        ? null
        : { x: ordered(sides[0], sides[1]), y: ordered(sides[2], sides[3]) },
    axes: axes.length === 0 ? null : axes,
    matrix: measures('matrix'),
    ranges,
    designs: designs.slice(0, MOST_DESIGNS),
    compared: {
      x: measure('cx'),
      y: measure('cy'),
      by: read('by') === 'axes' ? 'axes' : 'objectives',
    },
    solid: readSolid(read),
  };
}

function readSolid(read: (key: string) => string): SolidView {
  const [axisName = '', share = '', other = ''] = read('cut').split('*');
  const axis = ([0, 1, 2] as const).find((k) => AXES[k] === axisName);
  const at = numbersOf([share], 1)?.[0];
  const eye = numbersOf(read('eye').split('*'), 5);
  const layer = /^\d{1,5}$/u.test(read('layer')) ? Number(read('layer')) : null;
  return {
    eye:
      eye === null
        ? FIRST_VIEW
        : heldView({
            turn_deg: eye[0],
            raise_deg: eye[1],
            zoom: eye[2],
            panX: eye[3],
            panY: eye[4],
          }),
    shown: SHOWN.find((one) => one === read('show')) ?? 'part',
    shade: SHADES_IN_LINKS.find((one) => one === read('shade')) ?? null,
    cut:
      axis === undefined || at === undefined
        ? null
        : { axis, share: Math.min(1, Math.max(0, at)), other: other === 'other' },
    isLit: read('lit') === '1',
    layer,
  };
}

/** So many finite numbers, or null. */
function numbersOf(words: readonly string[], count: number): readonly number[] | null {
  const found = words.map((word) => (word.trim() === '' ? NaN : Number(word)));
  return found.length === count && found.every((value) => Number.isFinite(value)) ? found : null;
}

function ordered(a: number, b: number): Span {
  return [Math.min(a, b), Math.max(a, b)];
}
