/** Reads a Chromium trace: what held the page's own thread up, and for how long. */

/** What Chromium is asked to note. */
export const TRACED = ['devtools.timeline', 'disabled-by-default-devtools.timeline', 'v8'] as const;

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds; the last is time on a processor, without waiting for one. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: {
    readonly name?: string;
    readonly data?: {
      readonly functionName?: string;
      readonly url?: string;
      readonly lineNumber?: number;
    };
  };
}

export interface LongTask {
  readonly length_ms: number;
  /** Of that on a processor: the rest went to others on a busy machine. */
  readonly own_ms: number;
  /** What it was spent on, the longest first: name and milliseconds of its own. */
  readonly parts: readonly (readonly [string, number])[];
}

export interface Traced {
  /** Tasks of the page's own thread. */
  readonly tasks: number;
  /** All of them together, and the longest [ms]. */
  readonly busy_ms: number;
  readonly longest_ms: number;
  /** Those over 50 ms (W3C Long Tasks), as they came. */
  readonly long: readonly LongTask[];
}

const LONG_MS = 50;

/** @param json of `chrome://tracing`, as Playwright's `stopTracing` hands it out. */
export function readTrace(json: string): Traced {
  const { traceEvents: events }: { traceEvents: readonly TraceEvent[] } = JSON.parse(json);
  const own = new Set(
    events
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  const whole = events
    .filter(({ ph, pid, tid }) => ph === 'X' && own.has(`${pid} ${tid}`))
    .map((event) => ({ ...event, dur: event.dur ?? 0 }))
    .toSorted((a, b) => a.ts - b.ts || b.dur - a.dur);
  const tasks = whole.filter(({ name }) => name === 'RunTask');
  return {
    tasks: tasks.length,
    busy_ms: tasks.reduce((sum, { dur }) => sum + dur / 1000, 0),
    longest_ms: tasks.reduce((most, { dur }) => Math.max(most, dur / 1000), 0),
    long: tasks
      .filter(({ dur }) => dur > 1000 * LONG_MS)
      .map((task) => ({
        length_ms: task.dur / 1000,
        own_ms: (task.tdur ?? task.dur) / 1000,
        parts: partsOf(
          whole.filter(
            ({ pid, tid, ts, dur, name }) =>
              pid === task.pid &&
              tid === task.tid &&
              ts >= task.ts &&
              ts + dur <= task.ts + task.dur &&
              name !== 'RunTask',
          ),
        ),
      })),
  };
}

type Whole = TraceEvent & { readonly dur: number };

/** Time of each kind of work without what is nested in it. */
function partsOf(inside: readonly Whole[]): readonly (readonly [string, number])[] {
  const spent = new Map<string, number>();
  const open: { readonly end: number; readonly label: string }[] = [];
  for (const event of inside) {
    while (open.length > 0 && event.ts >= open[open.length - 1].end) open.pop();
    const above = open.at(-1)?.label;
    const ms = event.dur / 1000;
    const label = labelOf(event);
    if (above !== undefined) spent.set(above, (spent.get(above) ?? 0) - ms);
    spent.set(label, (spent.get(label) ?? 0) + ms);
    open.push({ end: event.ts + event.dur, label });
  }
  return [...spent].filter(([, ms]) => ms >= 1).toSorted(([, a], [, b]) => b - a);
}

function labelOf({ name, args }: TraceEvent): string {
  const data = args?.data;
  if (name !== 'FunctionCall' || data === undefined) return name;
  const file = (data.url ?? '').replace(/^.*\//u, '');
  return `${data.functionName === '' ? 'a function' : (data.functionName ?? 'a function')} in ${file}`;
}
