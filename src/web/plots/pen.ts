/** What plots are drawn with: one drawing serves the canvas on the page and the files taken away. */

/** Tones by their names on the page. */
export type Tone = 'paper' | 'grid' | 'line' | 'soft' | 'hair' | 'accent' | 'air';

export interface Lettering {
  readonly tone?: Tone;
  readonly anchor?: 'start' | 'middle' | 'end';
  /** Height of the letters [px]; 12 by default. */
  readonly size?: number;
  readonly bold?: boolean;
  /** Turned a quarter to the left, to run upwards. */
  readonly upwards?: boolean;
}

export interface Stroke {
  readonly tone: Tone;
  /** [px]; 0 for the thinnest line there is, by far the quickest to draw. */
  readonly width?: number;
  /** 0..1; 1 by default. */
  readonly opacity?: number;
  /** Lengths of strokes and gaps in turn [px]; unbroken by default. */
  readonly dash?: readonly number[];
}

/** How the mark of a design looks. */
export interface MarkLook {
  /** Place of its front among those shown: picks the shape. */
  readonly series: number;
  /** [px] */
  readonly radius: number;
  /** 0 (light) to 1 (dark) for a measure shown as shade; null without one. */
  readonly shade: number | null;
  /** Outside the ranges kept. */
  readonly faint: boolean;
}

/** All lengths in page pixels, y downwards. */
export interface Pen {
  readonly width: number;
  readonly height: number;
  line(x1: number, y1: number, x2: number, y2: number, stroke: Stroke): void;
  /** Through points x0 y0 x1 y1 ...; several of them in one go are cheaper than one by one. */
  polylines(lines: readonly ArrayLike<number>[], stroke: Stroke): void;
  /** A filled and, with a stroke, outlined rectangle. */
  box(
    x: number,
    y: number,
    width: number,
    height: number,
    fill: Stroke | null,
    stroke?: Stroke,
  ): void;
  /** A closed filled outline x0 y0 x1 y1 ... */
  patch(outline: readonly number[], tone: Tone): void;
  text(x: number, y: number, words: string, lettering?: Lettering): void;
  mark(x: number, y: number, look: MarkLook): void;
  /** The outline of a mark only. */
  ring(x: number, y: number, series: number, radius: number, stroke: Stroke): void;
  /** Draws within a rectangle; nothing shows outside. */
  within(x: number, y: number, width: number, height: number, draw: () => void): void;
}

/** Opacities of a mark's inside and of marks outside the ranges kept. */
export const MARK_OPACITY = { inside: 0.3, faint: 0.16 } as const;
