/** Moving and scaling a plot by hand: drag, wheel with a key, two fingers. */
import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';

export interface PanZoom {
  /** Moved by so many page pixels. */
  pan(dx: number, dy: number): void;
  /** Spans scaled by a factor about a place [page pixels within the element]. */
  zoom(factor: number, x: number, y: number): void;
  hover(x: number, y: number): void;
  leave(): void;
  /** A click or tap that was no drag. */
  pick(x: number, y: number, adding: boolean): void;
}

/** Farther than this from where it was pressed, the pointer drags [px]. */
const SLACK = 4;

interface Finger {
  x: number;
  y: number;
}

/** @param actions read anew at each event, so that they may close over the latest render. */
export function usePanZoom(
  element: RefObject<HTMLElement | null>,
  actions: RefObject<PanZoom | null>,
): void {
  useEffect(() => {
    const found = element.current;
    return found === null ? undefined : followPointers(found, () => actions.current);
  }, []);
}

function followPointers(element: HTMLElement, now: () => PanZoom | null): () => void {
  const fingers = new Map<number, Finger>();
  let pressed: Finger | null = null;
  let dragged = false;
  // Whether the pointer, not the keyboard, chose what is looked at.
  let pointed = false;
  const at = (event: MouseEvent): Finger => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.x, y: event.clientY - box.y };
  };
  const down = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    fingers.set(event.pointerId, at(event));
    if (fingers.size > 1) {
      dragged = true;
      return;
    }
    pressed = at(event);
    dragged = false;
  };
  const move = (event: PointerEvent): void => {
    const place = at(event);
    const finger = fingers.get(event.pointerId);
    if (finger === undefined || pressed === null) {
      if (fingers.size > 0 || isAtRest(event)) return;
      pointed = true;
      now()?.hover(place.x, place.y);
      return;
    }
    if (fingers.size === 2) {
      const other = [...fingers].find(([id]) => id !== event.pointerId)?.[1];
      if (other !== undefined) pinch(now(), finger, place, other);
    } else {
      if (!dragged && Math.hypot(place.x - pressed.x, place.y - pressed.y) <= SLACK) return;
      if (!dragged) {
        dragged = true;
        element.setPointerCapture(event.pointerId);
        now()?.leave();
      }
      now()?.pan(place.x - finger.x, place.y - finger.y);
    }
    finger.x = place.x;
    finger.y = place.y;
  };
  const up = (event: PointerEvent): void => {
    const was = fingers.delete(event.pointerId);
    if (was && fingers.size === 0) {
      const place = at(event);
      if (!dragged && event.type === 'pointerup') {
        now()?.pick(place.x, place.y, event.shiftKey || event.ctrlKey || event.metaKey);
      }
      pressed = null;
    }
  };
  const wheel = (event: WheelEvent): void => {
    // Without a key the wheel scrolls the page, as everywhere.
    if (!event.ctrlKey && !event.shiftKey) return;
    event.preventDefault();
    const { x, y } = at(event);
    // With Shift some systems turn the wheel sideways.
    const turn = event.deltaY === 0 ? event.deltaX : event.deltaY;
    now()?.zoom(turn > 0 ? 1.15 : 1 / 1.15, x, y);
  };
  const leave = (): void => {
    if (pointed) now()?.leave();
    pointed = false;
  };
  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', up);
  element.addEventListener('pointerleave', leave);
  element.addEventListener('wheel', wheel, { passive: false });
  element.addEventListener('touchmove', holdPage, { passive: false });
  return () => {
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', up);
    element.removeEventListener('pointerleave', leave);
    element.removeEventListener('wheel', wheel);
    element.removeEventListener('touchmove', holdPage);
  };
}

/** Whether the page moved under a pointer that did not: that is nobody's pointing. */
export function isAtRest(event: PointerEvent): boolean {
  return event.pointerType === 'mouse' && event.movementX === 0 && event.movementY === 0;
}

/** One finger up or down scrolls the page; two belong to the plot. */
function holdPage(event: TouchEvent): void {
  if (event.touches.length > 1) event.preventDefault();
}

/** The middle of two fingers moves the plot, their distance scales it. */
function pinch(plot: PanZoom | null, before: Finger, after: Finger, other: Finger): void {
  plot?.pan((after.x - before.x) / 2, (after.y - before.y) / 2);
  const was = Math.hypot(before.x - other.x, before.y - other.y);
  const is = Math.hypot(after.x - other.x, after.y - other.y);
  if (was > 8 && is > 8) plot?.zoom(was / is, (after.x + other.x) / 2, (after.y + other.y) / 2);
}
