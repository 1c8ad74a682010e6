/** Mouse, touch and keyboard on a view of parts. */
import { view } from './look.ts';
import { afterKey, panned, turned, zoomed } from './view.ts';

/** Degrees per share of the canvas's height that a pointer moves. */
const TURN_DEG = 180;
const WHEEL_FACTOR = 1.0015;

/**
 * One pointer turns; the other button, shift or two fingers move; two fingers apart, or the wheel on a
 * view that has the focus, enlarge. Elsewhere the wheel scrolls the page.
 *
 * @returns a function that lets go again.
 */
export function followGestures(canvas: HTMLCanvasElement): () => void {
  const held = new Map<number, { x: number; y: number }>();
  const off = new AbortController();
  const { signal } = off;

  const move = (event: PointerEvent): void => {
    const before = held.get(event.pointerId);
    if (before === undefined) return;
    const size = Math.max(1, canvas.clientHeight);
    const x = (event.clientX - before.x) / size;
    const y = (event.clientY - before.y) / size;
    const others = [...held].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
    held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (others.length > 0) {
      const [other] = others;
      const was = Math.hypot(before.x - other.x, before.y - other.y);
      const is = Math.hypot(event.clientX - other.x, event.clientY - other.y);
      view.value = panned(zoomed(view.value, is / Math.max(1, was)), x, -y);
    } else if (event.shiftKey || (event.buttons & 6) !== 0) {
      view.value = panned(view.value, 2 * x, -2 * y);
    } else {
      view.value = turned(view.value, -TURN_DEG * x, TURN_DEG * y);
    }
  };
  const release = (event: PointerEvent): void => {
    held.delete(event.pointerId);
  };

  canvas.addEventListener(
    'pointerdown',
    (event) => {
      canvas.setPointerCapture(event.pointerId);
      held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    },
    { signal },
  );
  canvas.addEventListener('pointermove', move, { signal });
  for (const name of ['pointerup', 'pointercancel', 'lostpointercapture'] as const) {
    canvas.addEventListener(name, release, { signal });
  }
  canvas.addEventListener('contextmenu', (event) => event.preventDefault(), { signal });
  canvas.addEventListener(
    'wheel',
    (event) => {
      if (document.activeElement !== canvas && !event.ctrlKey) return;
      event.preventDefault();
      view.value = zoomed(view.value, WHEEL_FACTOR ** -event.deltaY);
    },
    { signal, passive: false },
  );
  canvas.addEventListener(
    'keydown',
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const next = afterKey(view.value, event.key, event.shiftKey);
      if (next === null) return;
      event.preventDefault();
      view.value = next;
    },
    { signal },
  );
  return () => off.abort();
}
