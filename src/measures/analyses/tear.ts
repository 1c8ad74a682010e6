/** Where a plate tears most easily: from edge to edge through its channels, straight or zigzag. */
import { insideDistance, outlineBounds } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import type { Analysis } from '../assessment.ts';
import {
  MOST_NEIGHBOURS,
  createNeighbours,
  findNeighbours,
  footprintSupport,
  footprintX,
  footprintY,
  isPresent,
  layFootprints,
} from './ligament-gaps.ts';
import type { Footprints } from './ligament-gaps.ts';
import { channelsByHole } from './hole-gaps.ts';

interface TearReport {
  /** Solid along the weakest tear over the straight distance between its ends [0..1]. */
  readonly share: number;
  /** Channels it runs through, from edge to edge; none when the plate is weakest whole. */
  readonly channels: readonly number[];
}

/**
 * Depths looked at, channels in all, and starts: so many that starts times channels come to this, but
 * within the bounds.
 */
const FAST = { levels: 1, most: 300, work: 1500 } as const;
const EXACT = { levels: 5, most: 1000, work: 8000 } as const;
const STARTS = { least: 6, most: 32 } as const;
/** A tear shorter than this share of the plate's narrow width only takes a corner off. */
const LEAST_CHORD = 0.5;
/** Ligaments per channel: its own neighbours and those whose neighbour it is. */
const MOST_LINKS = 2 * MOST_NEIGHBOURS;
/** A tear does not cross solid wider than so many times a channel's reach in one go. */
const WIDEST = 6;
/** Ways outwards in which a channel's solid to the edge is looked for. */
const WAYS = 16;

/**
 * Shortest paths (Dijkstra 1959) over a graph whose nodes are channels, joined through the ligament
 * between neighbours and to the outer edge through the rim; inside a channel the tear runs free. A
 * ligament counts by its mean over the depths, so that a tear may follow channels that lean or bend.
 *
 *   share = min over pairs of edge places (sum of solid on the way) / (straight distance)
 *
 * Mounting holes are nodes too. An upper bound of the least share: tears that leave the rim where
 * neither channel nor hole stands near are not looked at.
 */
export const tearAnalysis: Analysis<TearReport> = {
  name: 'tear',
  run: ({ samples, exact }) => findTear(samples, exact ? EXACT : FAST),
};

interface Graph {
  readonly count: number;
  /** Neighbours of each node, -1 beyond the last, and the solid between [n x MOST_LINKS]. */
  readonly other: Int32Array;
  readonly solid_mm: Float64Array;
  /** Solid to the outer edge and where that comes out: the nearest place, one to either side [n x 3]. */
  readonly rim_mm: Float64Array;
  readonly edgeX_mm: Float64Array;
  readonly edgeY_mm: Float64Array;
}

function findTear(
  samples: PlateSamples,
  form: { readonly levels: number; readonly most: number; readonly work: number },
): TearReport {
  const prints = layFootprints(samples, form.levels);
  const channels = Math.min(samples.channelCount, form.most);
  const graph = layGraph(prints, channels);
  const box = outlineBounds(samples.plate.outline);
  const wide = box.maxX_mm - box.minX_mm;
  const high = box.maxY_mm - box.minY_mm;
  const narrow = Math.min(wide, high);
  // No chord is longer, with some room for openings that reach over the edge.
  const longest = 1.1 * Math.sqrt(wide * wide + high * high);
  const distance = new Float64Array(graph.count);
  const before = new Int32Array(graph.count);
  let share = 1;
  let best: number[] = [];
  const starts = Math.trunc(form.work / Math.max(1, graph.count));
  const sources = Math.min(STARTS.most, Math.max(STARTS.least, starts));
  for (const source of edgeChannels(graph, sources)) {
    spread(graph, source, share * longest, distance, before);
    for (let end = 0; end < graph.count; end++) {
      if (distance[end] >= share * longest) continue;
      for (let pair = 0; pair < PLACES * PLACES; pair++) {
        const a = PLACES * source + Math.trunc(pair / PLACES);
        const b = PLACES * end + (pair % PLACES);
        const dx = graph.edgeX_mm[b] - graph.edgeX_mm[a];
        const dy = graph.edgeY_mm[b] - graph.edgeY_mm[a];
        const chord = Math.sqrt(dx * dx + dy * dy);
        if (chord < LEAST_CHORD * narrow) continue;
        const solid = graph.rim_mm[a] + distance[end] + graph.rim_mm[b];
        if (solid >= share * chord) continue;
        share = solid / chord;
        best = [];
        for (let n = end; n >= 0; n = before[n]) if (n < channels) best.push(n);
      }
    }
  }
  return { share: Math.max(0, share), channels: best };
}

/** The graph of so many channels and, behind them, the mounting holes. */
function layGraph(prints: Footprints, channels: number): Graph {
  const { holes } = prints.samples.plate;
  const count = channels + holes.length;
  const other = new Int32Array(count * MOST_LINKS).fill(-1);
  const solid_mm = new Float64Array(count * MOST_LINKS);
  const rim_mm = new Float64Array(PLACES * count).fill(Infinity);
  const edgeX_mm = new Float64Array(PLACES * count);
  const edgeY_mm = new Float64Array(PLACES * count);
  const neighbours = createNeighbours();
  const graph: Graph = { count, other, solid_mm, rim_mm, edgeX_mm, edgeY_mm };
  for (let i = 0; i < channels; i++) {
    if (!isPresent(prints, i, prints.levels >> 1)) continue;
    findNeighbours(prints, i, WIDEST * prints.middle[3 * i + 2], neighbours);
    for (let n = 0; n < neighbours.count; n++) {
      if (neighbours.other[n] >= channels) continue;
      const solid = Math.max(0, neighbours.mean_mm[n]);
      // Either may be too far down the other's list: a ligament counts both ways.
      join(graph, i, neighbours.other[n], solid);
      join(graph, neighbours.other[n], i, solid);
    }
    const shape = prints.samples.shapeOf[i];
    const level = prints.levels >> 1;
    const [x, y] = [footprintX(prints, i, level), footprintY(prints, i, level)];
    const reach = (ux: number, uy: number): number =>
      footprintSupport(prints, shape, level, ux, uy);
    findEdge(prints, i, x, y, reach, graph);
  }
  holes.forEach(({ x_mm, y_mm, diameter_mm }, h) => {
    const node = channels + h;
    for (const near of channelsByHole(prints, h, channels, MOST_NEIGHBOURS, WIDEST)) {
      join(graph, node, near.channel, near.solid_mm);
      join(graph, near.channel, node, near.solid_mm);
    }
    findEdge(prints, node, x_mm, y_mm, () => 0.5 * diameter_mm, graph);
  });
  return graph;
}

function join(graph: Graph, from: number, to: number, solid_mm: number): void {
  const end = (from + 1) * MOST_LINKS;
  for (let n = from * MOST_LINKS; n < end; n++) {
    if (graph.other[n] !== to && graph.other[n] >= 0) continue;
    graph.other[n] = to;
    graph.solid_mm[n] = solid_mm;
    return;
  }
}

/**
 * The shortest way from a node at x, y to the outer edge at half depth, and those well aside, left and
 * right.
 *
 * @param reachOf how far the node's opening reaches in a direction [mm].
 */
function findEdge(
  { samples }: Footprints,
  node: number,
  x: number,
  y: number,
  reachOf: (ux: number, uy: number) => number,
  graph: Graph,
): void {
  const { outline } = samples.plate;
  for (let n = 0; n < WAYS; n++) {
    const [ux, uy] = RAYS[n];
    reaches[n] = reachOf(ux, uy);
    rims[n] = insideDistance(outline, x + reaches[n] * ux, y + reaches[n] * uy);
  }
  let [bestX, bestY] = [0, 0];
  for (let side = 0; side < PLACES; side++) {
    const place = PLACES * node + side;
    let [wayX, wayY] = [bestX, bestY];
    for (let n = 0; n < WAYS; n++) {
      const rim = rims[n];
      if (rim >= graph.rim_mm[place]) continue;
      const [ux, uy] = RAYS[n];
      const isLeft = uy * bestX > ux * bestY;
      if (side > 0 && (ux * bestX + uy * bestY > ASIDE || isLeft !== (side === 1))) continue;
      graph.rim_mm[place] = Math.max(0, rim);
      graph.edgeX_mm[place] = x + (reaches[n] + rim) * ux;
      graph.edgeY_mm[place] = y + (reaches[n] + rim) * uy;
      if (side === 0) {
        wayX = ux;
        wayY = uy;
      }
    }
    [bestX, bestY] = [wayX, wayY];
  }
}

/** Of the node at hand, each way: how far its opening reaches, and from there to the outer edge [mm]. */
const reaches = new Float64Array(WAYS);
const rims = new Float64Array(WAYS);

/** Places on the outer edge per channel. */
const PLACES = 3;
/** Well aside: at least 60 degrees off [cosine]. */
const ASIDE = 0.5;

/** Sixteen directions by halving right angles. */
const RAYS: readonly (readonly [number, number])[] = (() => {
  const c = Math.sqrt(0.5 + 0.25 * Math.SQRT2);
  const s = Math.sqrt(0.5 - 0.25 * Math.SQRT2);
  const h = Math.SQRT1_2;
  const quarter: [number, number][] = [
    [1, 0],
    [c, s],
    [h, h],
    [s, c],
  ];
  return [
    ...quarter,
    ...quarter.map(([x, y]): [number, number] => [-y, x]),
    ...quarter.map(([x, y]): [number, number] => [-x, -y]),
    ...quarter.map(([x, y]): [number, number] => [y, -x]),
  ];
})();

/** Nodes nearest to the edge, spread over the list of them. */
function edgeChannels(graph: Graph, most: number): number[] {
  const order = Array.from({ length: graph.count }, (_, i) => i)
    .filter((i) => graph.rim_mm[PLACES * i] < Infinity)
    .toSorted((a, b) => graph.rim_mm[PLACES * a] - graph.rim_mm[PLACES * b] || a - b);
  const near = order.slice(0, Math.max(most, Math.ceil(order.length / 3)));
  const step = Math.max(1, near.length / most);
  return Array.from({ length: Math.min(most, near.length) }, (_, i) => near[Math.floor(i * step)]);
}

let heap = new Int32Array(0);
let key = new Float64Array(0);

/** Dijkstra's distances from one channel, as far as they stay below `most_mm`. */
function spread(
  graph: Graph,
  source: number,
  most_mm: number,
  distance: Float64Array,
  before: Int32Array,
): void {
  distance.fill(Infinity);
  before.fill(-1);
  const most = graph.count * (MOST_LINKS + 1);
  if (heap.length < most) {
    heap = new Int32Array(most);
    key = new Float64Array(most);
  }
  let size = 0;
  const push = (node: number, value: number): void => {
    let at = size++;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (key[up] <= value) break;
      heap[at] = heap[up];
      key[at] = key[up];
      at = up;
    }
    heap[at] = node;
    key[at] = value;
  };
  distance[source] = 0;
  push(source, 0);
  while (size > 0) {
    const node = heap[0];
    const reached = key[0];
    if (reached >= most_mm) return;
    size--;
    const lastNode = heap[size];
    const lastKey = key[size];
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && key[child + 1] < key[child]) child++;
      if (key[child] >= lastKey) break;
      heap[at] = heap[child];
      key[at] = key[child];
      at = child;
    }
    heap[at] = lastNode;
    key[at] = lastKey;
    if (reached > distance[node]) continue;
    for (let n = node * MOST_LINKS; n < (node + 1) * MOST_LINKS; n++) {
      const next = graph.other[n];
      if (next < 0) break;
      const value = reached + graph.solid_mm[n];
      if (value >= distance[next]) continue;
      distance[next] = value;
      before[next] = node;
      push(next, value);
    }
  }
}
