/** A brief in plain words: what fits, how fast the air would be, and what cannot work. */
import { InputError, fault, heatCautions } from '../brief/index.ts';
import type { Brief } from '../brief/index.ts';
import { areaInside, outlineArea } from '../design/index.ts';
import { createGenome, plainSideGenes } from '../genome/index.ts';
import type { Decoded } from '../genome/index.ts';
import { flowAnalysis } from '../measures/index.ts';
import { cubicMetresPerHour } from '../numeric/index.ts';
import { assessDesign } from './evaluator.ts';

/** A plate of plain straight channels, or plain side bends, of one bore, to show what the air would do. */
export interface StraightPlate {
  readonly bore_mm: number;
  readonly thickness_mm: number;
  readonly channels: number;
  /** Port area over the area inside the rim. */
  readonly openShare: number;
  readonly velocity_m_per_s: number;
  readonly reynolds: number;
  readonly pressureDrop_Pa: number;
}

export interface BriefExplained {
  readonly plateArea_cm2: number;
  /** Area inside the rim, mounting holes not taken off. */
  readonly usableArea_cm2: number;
  readonly designFlow_m3_per_h: number;
  readonly air: { readonly density_kg_per_m3: number; readonly viscosity_Pa_s: number };
  readonly genes: number;
  readonly starts: readonly string[];
  /** Smallest, middle and largest bore that the brief allows. */
  readonly plates: readonly StraightPlate[];
  readonly warnings: readonly string[];
}

/** Above this a vent plate hisses and its pressure drop runs away (common practice, no source). */
const FAST_AIR_M_PER_S = 10;

/**
 * Works out what a brief implies, with the engine's own flow analysis on straight channels.
 * @throws InputError when not even one plain channel fits.
 */
export function explainBrief(brief: Brief): BriefExplained {
  const genome = createGenome(brief);
  const { outline, rim_mm } = brief.plate;
  const isSide = brief.air.route.kind === 'side';
  const plates: StraightPlate[] = [];
  const warnings: string[] = [];
  const { min, max } = brief.routes.bore_mm;
  let air = { density_kg_per_m3: 0, viscosity_Pa_s: 0 };
  let designFlow_m3_per_h = 0;
  for (const bore_mm of new Set([min, Math.sqrt(min * max), max])) {
    const row = genome.expressGenes(isSide ? plainSideGenes(brief, bore_mm) : { bore_mm });
    const decoded: Decoded =
      row instanceof Float64Array ? genome.decode(row, 0) : { ok: false, reason: row.reason };
    if (!decoded.ok) {
      warnings.push(`${plainWord(brief)} channels of ${short(bore_mm)} mm: ${decoded.reason}`);
      continue;
    }
    const assessment = assessDesign(brief, decoded.design, 'fast');
    const flow = assessment.get(flowAnalysis);
    const { samples } = assessment;
    let open_mm2 = 0;
    for (let i = 0; i < samples.channelCount; i++) {
      open_mm2 += samples.area_mm2[samples.shapeOf[i] * samples.stations];
    }
    air = flow.air;
    designFlow_m3_per_h = cubicMetresPerHour(flow.designFlow_m3_per_s);
    plates.push({
      bore_mm,
      thickness_mm: decoded.design.plate.thickness_mm,
      channels: samples.channelCount,
      openShare: open_mm2 / areaInside(outline, rim_mm),
      velocity_m_per_s: flow.maxVelocity_m_per_s,
      reynolds: flow.maxReynolds,
      pressureDrop_Pa: flow.pressureDrop_Pa,
    });
  }
  if (plates.length === 0) {
    const remedy = 'Make the plate larger, or the bore, ligament or rim smaller.';
    throw new InputError([
      fault('routes', 'a range in which nothing fits', 'let one channel fit', remedy),
    ]);
  }
  warnings.push(...plates.flatMap((plate) => warningsFor(brief, plate)));
  warnings.push(...heatCautions(brief));
  return {
    plateArea_cm2: outlineArea(outline) / 100,
    usableArea_cm2: areaInside(outline, rim_mm) / 100,
    designFlow_m3_per_h,
    air,
    genes: genome.genes.length,
    starts: genome.starts.map((start) => start.label),
    plates,
    warnings,
  };
}

/** What the yardstick's channels are called at the start of a sentence. */
function plainWord(brief: Brief): string {
  return brief.air.route.kind === 'side' ? 'Plainly turned' : 'Straight';
}

function warningsFor(brief: Brief, plate: StraightPlate): string[] {
  const { supply } = brief.air;
  const warnings: string[] = [];
  const bore = `${short(plate.bore_mm)} mm channels`;
  const need = `would need ${short(plate.pressureDrop_Pa)} Pa at the design flow`;
  if (supply.kind === 'fan') {
    const quoted = Math.max(...supply.curve.map((point) => point.pressure_Pa));
    const most = quoted * supply.speedShare * supply.speedShare;
    if (plate.pressureDrop_Pa > most) {
      warnings.push(
        `${plainWord(brief)} ${bore} ${need}; the fan gives ${short(most)} Pa at the most.`,
      );
    }
  } else if (plate.pressureDrop_Pa > 200) {
    // Small axial fans give some 20-100 Pa (common practice, no source).
    warnings.push(`${plainWord(brief)} ${bore} ${need}, more than a small axial fan gives.`);
  }
  if (plate.velocity_m_per_s > FAST_AIR_M_PER_S) {
    warnings.push(
      `In ${bore} the air runs at ${short(plate.velocity_m_per_s)} m/s: loud, and it lifts settled dust.`,
    );
  }
  if (plate.reynolds > 2300 && plate.reynolds < 4000) {
    warnings.push(
      `In ${bore} the Reynolds number is ${short(plate.reynolds)}, between laminar and turbulent: friction is known to 30 % only.`,
    );
  }
  return warnings;
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}
