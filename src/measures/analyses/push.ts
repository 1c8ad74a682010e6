/** Deflection and stress of a plate under the brief's push. */
import type { Brief } from '../../brief/index.ts';
import { outlineArea, outlineBounds } from '../../design/index.ts';
import { bendingStress, flexuralRigidity, pushPlate } from '../../physics/index.ts';
import type { PlateOutline, PushedPlate } from '../../physics/index.ts';
import type { Analysis } from '../assessment.ts';
import { ligamentAnalysis } from './ligaments.ts';
import type { LigamentReport } from './ligaments.ts';

interface PushReport {
  readonly deflection_mm: number;
  /** Part of it that is due to shear [-]. */
  readonly shearShare: number;
  /** Nominal stress in the ligaments [MPa], and what is allowed. */
  readonly stress_MPa: number;
  readonly allowed_MPa: number;
  /** Narrow width of the plate between its supports [mm]. */
  readonly span_mm: number;
  readonly ligaments: LigamentReport;
}

/** Solid plastics, and the table of perforated plates. */
const POISSON = 0.3;
/** Share of the modulus left under a lasting push; common practice, no source. */
const CREPT = 0.5;

export const pushAnalysis: Analysis<PushReport> = {
  name: 'push',
  run(assessment) {
    const { brief, samples } = assessment;
    const { strength } = brief;
    if (strength === undefined) throw new Error('The brief states no push.');
    const { plate } = samples;
    const ligaments = assessment.get(ligamentAnalysis);
    const modulus_Pa = strength.modulus_GPa * 1e9 * (strength.lasting ? CREPT : 1);
    const thickness_m = plate.thickness_mm / 1000;
    const pushed = leastDeflected(plateOutlines(plate.outline), (outline) => {
      const solid_Nm = flexuralRigidity(modulus_Pa, thickness_m, ligaments.poisson);
      const along_Nm = Math.max(LEAST_SHARE, ligaments.along) * solid_Nm;
      const across_Nm = Math.max(LEAST_SHARE, ligaments.across) * solid_Nm;
      const isAlongX = Math.abs(ligaments.axisX) >= Math.abs(ligaments.axisY);
      return pushPlate(
        outline,
        {
          thickness_m,
          rigidityX_Nm: isAlongX ? along_Nm : across_Nm,
          rigidityY_Nm: isAlongX ? across_Nm : along_Nm,
          poisson: ligaments.poisson,
          shear_Pa: (modulus_Pa * ligaments.solidShare) / (2 * (1 + POISSON)),
        },
        {
          load_N: strength.push_N,
          pad_m: strength.padRadius_mm / 1000,
          support: strength.support,
        },
      );
    });
    const isAlongX = Math.abs(ligaments.axisX) >= Math.abs(ligaments.axisY);
    const along_N = isAlongX ? pushed.momentX_N : pushed.momentY_N;
    const across_N = isAlongX ? pushed.momentY_N : pushed.momentX_N;
    const stress_Pa = Math.max(
      bendingStress(along_N, thickness_m) / Math.max(LEAST_SHARE, ligaments.alongShare),
      bendingStress(across_N, thickness_m) / Math.max(LEAST_SHARE, ligaments.acrossShare),
    );
    const box = outlineBounds(plate.outline);
    return {
      deflection_mm: 1000 * pushed.deflection_m,
      shearShare: pushed.shear_m / pushed.deflection_m,
      stress_MPa: stress_Pa / 1e6,
      allowed_MPa: allowedStress(strength, plate.build === 'edge'),
      span_mm: Math.min(box.maxX_mm - box.minX_mm, box.maxY_mm - box.minY_mm),
      ligaments,
    };
  },
};

/** Ligaments of nothing would sag and be stressed without end, which the search cannot rank. */
const LEAST_SHARE = 1e-4;

function allowedStress(strength: NonNullable<Brief['strength']>, isAcross: boolean): number {
  const share = isAcross ? strength.acrossLayers : 1;
  return (strength.strength_MPa * share) / strength.safetyFactor;
}

/**
 * Plates that stand for an outline: itself, or for a polygon the circle of its area and the box about
 * it, each softer than most polygons are.
 */
function plateOutlines(outline: Brief['plate']['outline']): PlateOutline[] {
  if (outline.kind === 'round') return [{ kind: 'round', radius_m: outline.diameter_mm / 2000 }];
  const box = outlineBounds(outline);
  const rectangle: PlateOutline = {
    kind: 'rectangle',
    width_m: (box.maxX_mm - box.minX_mm) / 1000,
    height_m: (box.maxY_mm - box.minY_mm) / 1000,
  };
  if (outline.kind === 'rectangle') return [rectangle];
  return [{ kind: 'round', radius_m: Math.sqrt(outlineArea(outline) / Math.PI) / 1000 }, rectangle];
}

function leastDeflected(
  outlines: readonly PlateOutline[],
  push: (outline: PlateOutline) => PushedPlate,
): PushedPlate {
  const results = outlines.map((outline) => push(outline));
  return results.reduce((best, each) => (each.deflection_m < best.deflection_m ? each : best));
}

/** Why the bending model does not hold for this plate, or null. */
export function pushDoubts(report: PushReport, thickness_mm: number): string | null {
  const { ligaments, deflection_mm, span_mm } = report;
  const doubts: string[] = [];
  if (thickness_mm < 2 * ligaments.pitch_mm) {
    doubts.push(
      `the plate is thinner than two pitches of ${short(ligaments.pitch_mm)} mm (it is somewhat stiffer)`,
    );
  }
  if (ligaments.model !== 'solid' && ligaments.efficiency < 0.1) {
    doubts.push(`the ligament efficiency of ${short(ligaments.efficiency)} lies below 0.1`);
  }
  if (deflection_mm > 0.5 * thickness_mm) {
    doubts.push('it would sag by more than half its thickness (it stiffens)');
  }
  if (thickness_mm > span_mm / 5) {
    doubts.push('it is thicker than a fifth of its span (trust the ranking only)');
  }
  if (ligaments.model !== 'solid' && ligaments.edge_mm < ligaments.least_mm) {
    doubts.push(
      'a channel lies nearer to the outer edge than to its neighbours (the rim may tear)',
    );
  }
  if (ligaments.hole_mm < Math.min(ligaments.least_mm, ligaments.edge_mm)) {
    doubts.push(
      `a channel leaves ${short(ligaments.hole_mm)} mm to a mounting hole, less than to its neighbours (the screw may tear out)`,
    );
  }
  const lean = Math.min(Math.abs(ligaments.axisX), Math.abs(ligaments.axisY));
  if (ligaments.model === 'slots' && lean > 0.26) {
    doubts.push('its slots run askew to x and y (they are taken to run along the nearer)');
  }
  return doubts.length === 0 ? null : `Plate bending: ${doubts.join('; ')}.`;
}

function short(value: number): string {
  return String(Number(value.toPrecision(2)));
}
