/** What the solid between the channels of a plate is worth: slenderness, efficiency, stiffness. */
import { areaInside } from '../../design/index.ts';
import type { PlateSamples } from '../../design/index.ts';
import { quantile } from '../../numeric/index.ts';
import { ligamentEfficiency, perforatedElastic, slotStiffness } from '../../physics/index.ts';
import type { HolePattern } from '../../physics/index.ts';
import type { Analysis } from '../assessment.ts';
import {
  createNeighbours,
  findNeighbours,
  footprintSupport,
  isPresent,
  layFootprints,
  longAxis,
} from './ligament-gaps.ts';
import type { Footprints } from './ligament-gaps.ts';
import { channelsByHole } from './hole-gaps.ts';
import { edgeGap, endGap } from './ligament-edges.ts';

export interface LigamentReport {
  /** Longest free length of a ligament over its width; 0 where no two channels are neighbours. */
  readonly slenderness: number;
  /** Least ligament efficiency of a channel and a neighbour, lower quartile of the channels. */
  readonly efficiency: number;
  /** Pitch along that ligament, median [mm]; 0 without neighbours. */
  readonly pitch_mm: number;
  /** round: table of round holes. slots: beam model of slats and webs. solid: no neighbours. */
  readonly model: 'round' | 'slots' | 'solid';
  readonly pattern: HolePattern;
  /** Bending stiffness over that of the solid plate, along the slots and across; alike for holes. */
  readonly along: number;
  readonly across: number;
  readonly poisson: number;
  /** Share of solid that carries the moment along, and across. */
  readonly alongShare: number;
  readonly acrossShare: number;
  /** Direction of the slots in the plane, unit; x without slots. */
  readonly axisX: number;
  readonly axisY: number;
  /** Share of solid seen along the air inside the rim, at the depth where it is least. */
  readonly solidShare: number;
  /** Least solid between a channel and the outer edge [mm]. */
  readonly edge_mm: number;
  /** Least solid between two channels [mm]. */
  readonly least_mm: number;
  /** Least solid between a channel and a mounting hole [mm]. */
  readonly hole_mm: number;
}

/** Channels looked at, depths, and the widest ligament that still makes two channels neighbours. */
const FAST = { probes: 16, levels: 5 } as const;
const EXACT = { probes: 48, levels: 9 } as const;
/** A slot at least this long bends as slats and webs do. */
const SLOT_ASPECT = 1.5;
/** Solid wider than so many bores, or than a slot is long, is no ligament. */
const WIDEST = 3;
/** A gap of nothing has no ratio. */
const LEAST_GAP_mm = 0.01;

const neighbours = createNeighbours();

export const ligamentAnalysis: Analysis<LigamentReport> = {
  name: 'ligaments',
  run: ({ samples, exact }) => measureLigaments(samples, exact ? EXACT : FAST),
};

/** Lists that the probes fill. */
interface Probed {
  readonly efficiency: number[];
  readonly pitch: number[];
  readonly along: number[];
  readonly across: number[];
  readonly alongShare: number[];
  readonly acrossShare: number[];
  crowded: number;
  slenderness: number;
  edge_mm: number;
  least_mm: number;
}

function measureLigaments(
  samples: PlateSamples,
  form: { readonly probes: number; readonly levels: number },
): LigamentReport {
  const prints = layFootprints(samples, form.levels);
  const probed: Probed = {
    efficiency: [],
    pitch: [],
    along: [],
    across: [],
    alongShare: [],
    acrossShare: [],
    crowded: 0,
    slenderness: 0,
    edge_mm: Infinity,
    least_mm: Infinity,
  };
  const step = Math.max(1, Math.ceil(samples.channelCount / form.probes));
  let slots = 0;
  let seen = 0;
  for (let i = 0; i < samples.channelCount; i += step) {
    if (!isPresent(prints, i, form.levels >> 1)) continue;
    seen++;
    findNeighbours(prints, i, widestLigament(samples, i), neighbours);
    probed.edge_mm = Math.min(probed.edge_mm, edgeGap(prints, i));
    if (isSlot(samples, i)) {
      slots++;
      probeSlot(prints, i, probed);
    }
    probe(prints, i, probed);
  }
  const solidShare = leastSolid(prints);
  const middle = form.levels >> 1;
  const first = slots > 0 ? samples.shapeOf[0] : -1;
  const fx = first < 0 ? 1 : longAxis(prints, first, middle, 0);
  const fy = first < 0 ? 0 : longAxis(prints, first, middle, 1);
  const size = Math.sqrt(fx * fx + fy * fy);
  const common = {
    slenderness: probed.slenderness,
    pitch_mm: probed.pitch.length > 0 ? quantile(probed.pitch, 0.5) : 0,
    efficiency: probed.efficiency.length > 0 ? Math.max(0, quarter(probed.efficiency)) : 1,
    axisX: size > 0 ? fx / size : 1,
    axisY: size > 0 ? fy / size : 0,
    solidShare,
    edge_mm: probed.edge_mm,
    least_mm: probed.least_mm,
    hole_mm: leastByHoles(prints),
  };
  // A lattice whose inner channels have six neighbours alike; the outer ones have fewer.
  const pattern: HolePattern = probed.crowded > 0.25 * seen ? 'triangular' : 'square';
  if (slots > 0.5 * seen) {
    return {
      ...common,
      model: 'slots',
      pattern,
      along: quarter(probed.along),
      across: quarter(probed.across),
      poisson: 0.3,
      alongShare: quarter(probed.alongShare),
      acrossShare: quarter(probed.acrossShare),
    };
  }
  const { modulusRatio, poisson } = perforatedElastic(common.efficiency, pattern);
  return {
    ...common,
    model: probed.efficiency.length > 0 ? 'round' : 'solid',
    pattern,
    along: modulusRatio,
    across: modulusRatio,
    poisson,
    alongShare: common.efficiency,
    acrossShare: common.efficiency,
  };
}

function quarter(list: readonly number[]): number {
  return quantile(list, 0.25);
}

function isSlot(samples: PlateSamples, channel: number): boolean {
  const section = samples.sections[samples.shapeOf[channel]];
  return section.kind === 'slot' && section.aspect >= SLOT_ASPECT;
}

function widestLigament(samples: PlateSamples, channel: number): number {
  const shape = samples.shapeOf[channel];
  const section = samples.sections[shape];
  const bore_mm = samples.bore_mm[shape * samples.stations + (samples.stations >> 1)];
  return bore_mm * Math.max(WIDEST, section.kind === 'slot' ? section.aspect : 0);
}

/** Width of a channel square to a ligament: how long the ligament stands free on its side. */
function freeLength(prints: Footprints, channel: number, x: number, y: number): number {
  const level = prints.levels >> 1;
  const shape = prints.samples.shapeOf[channel];
  return (
    footprintSupport(prints, shape, level, -y, x) + footprintSupport(prints, shape, level, y, -x)
  );
}

/** Every neighbour's slenderness; the least efficiency of the channel with its pitch. */
function probe(prints: Footprints, channel: number, probed: Probed): void {
  const { count, gap_mm, pitch_mm, alongX, alongY, other } = neighbours;
  if (count === 0) return;
  let least = Infinity;
  let pitch = 0;
  let near = 0;
  for (let n = 0; n < count; n++) {
    const gap = gap_mm[n];
    if (gap < probed.least_mm) probed.least_mm = gap;
    const free = Math.min(
      freeLength(prints, channel, alongX[n], alongY[n]),
      freeLength(prints, other[n], alongX[n], alongY[n]),
    );
    probed.slenderness = Math.max(probed.slenderness, free / Math.max(LEAST_GAP_mm, gap));
    const eta = pitch_mm[n] > 0 ? ligamentEfficiency(pitch_mm[n], pitch_mm[n] - gap) : 0;
    if (eta < least) {
      least = eta;
      pitch = pitch_mm[n];
    }
    if (gap <= 1.2 * gap_mm[0] + 0.1) near++;
  }
  if (near >= 5) probed.crowded++;
  probed.efficiency.push(least);
  probed.pitch.push(pitch);
}

/** Slat beside and web behind one slot. */
function probeSlot(prints: Footprints, channel: number, probed: Probed): void {
  const { samples, levels } = prints;
  const shape = samples.shapeOf[channel];
  const middle = levels >> 1;
  const fx = longAxis(prints, shape, middle, 0);
  const fy = longAxis(prints, shape, middle, 1);
  const size = Math.sqrt(fx * fx + fy * fy);
  const [ux, uy] = [fx / size, fy / size];
  const long = 2 * footprintSupport(prints, shape, middle, ux, uy);
  const width = 2 * footprintSupport(prints, shape, middle, -uy, ux);
  // Without a neighbour on a side, the slot's own length of solid stands there.
  let slat = long;
  let shift = 0;
  let web = 2 * Math.max(LEAST_GAP_mm, endGap(prints, channel, ux, uy, 0.5 * long));
  for (let n = neighbours.count - 1; n >= 0; n--) {
    const across = Math.abs(uy * neighbours.alongX[n] - ux * neighbours.alongY[n]);
    const gap = Math.max(LEAST_GAP_mm, neighbours.gap_mm[n]);
    if (across > 0.9) {
      if (gap > slat) continue;
      slat = gap;
      shift = Math.abs(ux * neighbours.stepX_mm[n] + uy * neighbours.stepY_mm[n]);
    } else if (across < 0.4 && gap < web) web = gap;
  }
  const pitch = long + web;
  shift -= pitch * Math.floor(shift / pitch);
  const stiffness = slotStiffness({
    width,
    slat,
    pitch,
    web,
    shift: Math.min(shift, pitch - shift),
    thickness: samples.plate.thickness_mm,
  });
  probed.along.push(stiffness.along);
  probed.across.push(stiffness.across);
  probed.alongShare.push(stiffness.slatShare);
  probed.acrossShare.push(stiffness.webShare);
}

/** Least solid between a channel and a mounting hole, over the depths [mm]. */
function leastByHoles(prints: Footprints): number {
  const { samples } = prints;
  let least = Infinity;
  for (let hole = 0; hole < samples.plate.holes.length; hole++) {
    const [near] = channelsByHole(prints, hole, samples.channelCount, 1, WIDEST);
    if (near !== undefined) least = Math.min(least, near.solid_mm);
  }
  return least;
}

/** Share of solid inside the rim at the depth with the most void, sections cut along the plate. */
function leastSolid(prints: Footprints): number {
  const { samples } = prints;
  const { outline, rim_mm } = samples.plate;
  const inside = areaInside(outline, rim_mm);
  if (!(inside > 0)) return 1;
  let most = 0;
  for (const k of [0, samples.stations >> 1, samples.stations - 1]) {
    let open = 0;
    for (let c = 0; c < samples.channelCount; c++) {
      const row = samples.shapeOf[c] * samples.stations + k;
      open += samples.area_mm2[row] / Math.max(0.2, Math.abs(samples.tangent[3 * row + 2]));
    }
    most = Math.max(most, open);
  }
  return Math.min(1, Math.max(0.02, 1 - most / inside));
}
