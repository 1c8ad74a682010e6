import type { Measure } from './measure.ts';
import { clearanceAnalysis } from './clearance/clearance.ts';

export const thinnestWall: Measure = {
  id: 'thinnestWall_mm',
  label: 'thinnest wall',
  unit: 'mm',
  better: 'higher',
  meaning:
    'Thinnest solid anywhere: between channels, a channel and itself (bends and loops), pockets, ' +
    'the faces away from ports, the outer edge and mounting holes; negative where surfaces overlap.',
  validity:
    'As drawn, before printing; reported up to 8 mm (twice the minimum wall if that is more). At ' +
    '32 stations errors lie within about -0.1..+0.05 mm; beside pockets, which are taken as convex, ' +
    'and at bent, strongly leaning ports it reads up to 0.4 mm too thin. The sharp lip of a leaning ' +
    'port counts from twice the minimum wall behind its edge.',
  source:
    'Exact distance of convex pieces between sections (Gilbert, Johnson & Keerthi 1988); self-approach ' +
    'by bend radius and facing stretches (Litherland et al. 1999); the lip rule is an own heuristic.',
  standing: 'exact',
  evaluate: (assessment) => assessment.get(clearanceAnalysis).thinnestWall_mm,
};
