/** Drawing in turns: what takes long waits for the next frame, so that no frame holds all plots. */

type Job = () => void;

/** After so long in one frame the rest waits [ms]. */
const SPENT_MS = 4;

const waiting = new Set<Job>();
let frame = 0;

/** Puts a drawing in line; one that waits already keeps its place. */
export function enqueue(job: Job): void {
  waiting.add(job);
  if (frame === 0) frame = requestAnimationFrame(work);
}

export function dequeue(job: Job): void {
  waiting.delete(job);
}

function work(): void {
  const began = performance.now();
  frame = 0;
  for (const job of waiting) {
    waiting.delete(job);
    job();
    if (performance.now() - began > SPENT_MS) break;
  }
  if (waiting.size > 0 && frame === 0) frame = requestAnimationFrame(work);
}
