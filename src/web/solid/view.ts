/** Where all views of parts are looked at from: one state, so that designs side by side turn alike. */

export interface View {
  /** Of the eye about the plate's z axis, from +x [deg]. */
  readonly turn_deg: number;
  /** Of the eye above the plate's plane: 90 looks at the outlet face, -90 at the inlet face [deg]. */
  readonly raise_deg: number;
  /** 1 fits the largest part. */
  readonly zoom: number;
  /** Of the picture's middle from the part's, as shares of the fitted half height. */
  readonly panX: number;
  readonly panY: number;
}

interface Preset {
  readonly id: string;
  readonly label: string;
  /** Key that brings it. */
  readonly key: string;
  readonly turn_deg: number;
  readonly raise_deg: number;
}

export const PRESETS: readonly Preset[] = [
  { id: 'slant', label: 'Slant', key: '1', turn_deg: -60, raise_deg: 35 },
  { id: 'outlet', label: 'Outlet face', key: '2', turn_deg: -90, raise_deg: 90 },
  { id: 'inlet', label: 'Inlet face', key: '3', turn_deg: -90, raise_deg: -90 },
  { id: 'front', label: 'Along y', key: '4', turn_deg: -90, raise_deg: 0 },
  { id: 'side', label: 'Along x', key: '5', turn_deg: 0, raise_deg: 0 },
];

const [SLANT] = PRESETS;
export const FIRST_VIEW: View = {
  turn_deg: SLANT.turn_deg,
  raise_deg: SLANT.raise_deg,
  zoom: 1,
  panX: 0,
  panY: 0,
};

const LEAST_ZOOM = 0.3;
const MOST_ZOOM = 40;

/** Turns about the vertical without end, and up and down as far as straight above and below. */
export function turned(view: View, turn_deg: number, raise_deg: number): View {
  const turn = view.turn_deg + turn_deg;
  return {
    ...view,
    turn_deg: turn - 360 * Math.round(turn / 360),
    raise_deg: Math.min(90, Math.max(-90, view.raise_deg + raise_deg)),
  };
}

export function zoomed(view: View, factor: number): View {
  return { ...view, zoom: Math.min(MOST_ZOOM, Math.max(LEAST_ZOOM, view.zoom * factor)) };
}

/** How far a part may be moved out of the middle, in half heights of the picture. */
const REACH = 1.5;

function hold(value: number): number {
  return Math.min(REACH, Math.max(-REACH, value));
}

/** A view from elsewhere, kept within what hands can reach. */
export function heldView({ turn_deg, raise_deg, zoom, panX, panY }: View): View {
  const start = { turn_deg: 0, raise_deg: 0, zoom: 1, panX: 0, panY: 0 };
  const held = zoomed(turned(start, turn_deg, raise_deg), zoom);
  return { ...held, panX: hold(panX), panY: hold(panY) };
}

/** Moves the part in the picture by shares of the picture's half height. */
export function panned(view: View, right: number, up: number): View {
  return {
    ...view,
    panX: hold(view.panX - right / view.zoom),
    panY: hold(view.panY - up / view.zoom),
  };
}

export function fitted(view: View): View {
  return { ...view, zoom: 1, panX: 0, panY: 0 };
}

export function fromPreset(view: View, { turn_deg, raise_deg }: Preset): View {
  return { ...view, turn_deg, raise_deg };
}

type Axis = readonly [number, number, number];

/** Unit vectors of the picture in plate coordinates: to the right, up, and towards the eye. */
export function basisOf({ turn_deg, raise_deg }: View): {
  readonly right: Axis;
  readonly up: Axis;
  readonly toEye: Axis;
} {
  const [ct, st] = cosSin(turn_deg);
  const [cr, sr] = cosSin(raise_deg);
  return {
    right: [-st, ct, 0],
    up: [-sr * ct, -sr * st, cr],
    toEye: [cr * ct, cr * st, sr],
  };
}

function cosSin(angle_deg: number): [number, number] {
  const a = (angle_deg * Math.PI) / 180;
  return [Math.cos(a), Math.sin(a)];
}

/** What a key does to a view; null for keys that do nothing. */
export function afterKey(view: View, key: string, withShift: boolean): View | null {
  const step = 10;
  const way = ARROWS[key];
  if (way !== undefined) {
    const [x, y] = way;
    return withShift ? panned(view, 0.1 * x, 0.1 * y) : turned(view, -step * x, step * y);
  }
  if (key === '+' || key === '=') return zoomed(view, 1.25);
  if (key === '-' || key === '_') return zoomed(view, 0.8);
  if (key === '0' || key === 'Home') return fitted(view);
  const preset = PRESETS.find((one) => one.key === key);
  return preset === undefined ? null : fromPreset(view, preset);
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/**
 * The view in words.
 *
 * @example viewWords({ turn_deg: -60, raise_deg: 35, zoom: 1, panX: 0, panY: 0 }) // 'turned -60\u00b0, raised 35\u00b0, 1\u00d7'
 */
export function viewWords({ turn_deg, raise_deg, zoom }: View): string {
  const size = zoom.toPrecision(2).replace(/\.0$/, '');
  return `turned ${Math.round(turn_deg)}\u00b0, raised ${Math.round(raise_deg)}\u00b0, ${size}\u00d7`;
}
