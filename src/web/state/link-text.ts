/** A view as the text behind the step in an address, and back; it may have been written by anybody. */

export interface View {
  /** First digits of the front file's digest. */
  readonly front: string;
  readonly x: string;
  readonly y: string;
  readonly size: string;
  readonly ranges: Readonly<Record<string, readonly [number, number]>>;
  /** Ids of the designs selected. */
  readonly designs: readonly string[];
}

/** Digits of the digest in a link: 64 bits tell any two fronts apart that one person ever meets. */
export const DIGITS = 16;
const MOST_DESIGNS = 50;

/**
 * Text of a view for an address.
 *
 * @example writeView({ front: '00ff00ff00ff00ff', x: 'mass_g', y: 'cost', size: '', ranges: { mass_g: [1, 2.5] }, designs: ['d001'] }) // 'front=00ff00ff00ff00ff&x=mass_g&y=cost&range=mass_g*1*2.5&designs=d001'
 */
export function writeView(view: View): string {
  const query = new URLSearchParams({ front: view.front.slice(0, DIGITS) });
  for (const key of ['x', 'y', 'size'] as const) if (view[key] !== '') query.set(key, view[key]);
  for (const [id, [low, high]] of Object.entries(view.ranges)) {
    query.append('range', `${id}*${low}*${high}`);
  }
  if (view.designs.length > 0) query.set('designs', view.designs.slice(0, MOST_DESIGNS).join('.'));
  return query.toString();
}

/** The view of an address, or null where it holds none. What cannot be read in it is left out. */
export function readView(text: string): View | null {
  const query = new URLSearchParams(text);
  const front = query.get('front') ?? '';
  if (!/^[0-9a-f]{16}$/u.test(front)) return null;
  const ranges: Record<string, readonly [number, number]> = {};
  for (const range of query.getAll('range')) {
    const [id, low, high] = range.split('*');
    const ends = [low, high].map((word) =>
      word === undefined || word === '' ? NaN : Number(word),
    );
    if (/^[A-Za-z]\w{0,59}$/u.test(id) && ends.every((end) => Number.isFinite(end))) {
      ranges[id] = [Math.min(...ends), Math.max(...ends)];
    }
  }
  const measure = (key: string): string => {
    const found = query.get(key) ?? '';
    return /^[A-Za-z]\w{0,59}$/u.test(found) ? found : '';
  };
  const designs = (query.get('designs') ?? '').split('.').filter((id) => /^d\d{3,9}$/u.test(id));
  return {
    front,
    x: measure('x'),
    y: measure('y'),
    size: measure('size'),
    ranges,
    designs: designs.slice(0, MOST_DESIGNS),
  };
}
