/** Assessments for tests: a design in a brief, with chosen sampling. */
import { createAssessment } from '../../src/measures/assessment.ts';
import type { Assessment } from '../../src/measures/index.ts';
import type { Channel, Design } from '../../src/design/index.ts';
import { sampleDesign } from '../../src/design/index.ts';
import type { Brief } from '../../src/brief/index.ts';
import { aBrief, aDesign } from './plates.ts';

/** A design, or one channel in `aPlate`, under assessment. */
export function assess(
  subject: Design | Channel,
  options: { exact?: boolean; stations?: number; brief?: Brief } = {},
): Assessment {
  const design = 'plate' in subject ? subject : aDesign({ channels: [subject] });
  const { exact = false, brief = aBrief() } = options;
  const stations = options.stations ?? (exact ? 96 : 32);
  return createAssessment(brief, design, sampleDesign(design, stations), exact);
}
