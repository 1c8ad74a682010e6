/** Printing many: bed, handling and prices beyond the single part. Defaults: invented, plausible. */
import * as z from 'zod';
import { bounded, whole } from './schema-plate.ts';

export const batchSchema = z
  .strictObject({
    parts: whole(1, 1_000_000, 'Parts wanted: the batch that batchCost is quoted for.').default(
      100,
    ),
    bedX_mm: bounded(20, 5000, 'Width of the print bed.').default(220),
    bedY_mm: bounded(20, 5000, 'Depth of the print bed.').default(220),
    bedZ_mm: bounded(10, 5000, 'Height that the printer reaches.').default(250),
    gap_mm: bounded(0, 100, 'Free space between parts on the bed.').default(5),
    setup_h: bounded(0, 24, 'Hands-on time per print job: clean, load, start, take off.').default(
      0.25,
    ),
    handling_h: bounded(0, 24, 'Hands-on time per part: clean, check, pack.').default(0.05),
    labourRate_per_h: bounded(0, 10000, 'Price of a working hour in `currency`.').default(30),
    scrapShare: bounded(0, 0.9, 'Share of the prints that fail.').default(0.03),
    machines: whole(1, 10000, 'Printers at work side by side.').default(1),
  })
  .describe('Printing many parts: bed, handling, prices of labour.');

export type Batch = z.output<typeof batchSchema>;
