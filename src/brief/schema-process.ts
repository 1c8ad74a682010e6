/** The printing process in a brief. Defaults: common practice for a 0.4 mm nozzle, no source. */
import * as z from 'zod';
import { bounded } from './schema-plate.ts';

export const processSchema = z
  .strictObject({
    lineWidth_mm: bounded(0.1, 2, 'Width of a printed line.').default(0.4),
    layerHeight_mm: bounded(0.02, 1, 'Height of a layer.').default(0.2),
    overhangLimit_deg: bounded(
      0,
      80,
      'Steepest down-facing surface printed without support, measured from the vertical.',
    ).default(45),
    bridgeLimit_mm: bounded(0, 60, 'Longest ceiling printed in the air.').default(10),
    minimumWall_mm: bounded(0.2, 10, 'Thinnest wall that prints soundly.').default(0.8),
    minimumFeature_mm: bounded(0.1, 10, 'Finest opening or rib that prints.').default(0.8),
    holeShrinkage_mm: bounded(
      0,
      1,
      'How much smaller than drawn a printed bore comes out, on the diameter.',
    ).default(0.2),
    printSpeed_mm_per_s: bounded(1, 1000, 'Speed while a line is laid.').default(60),
    travelSpeed_mm_per_s: bounded(1, 2000, 'Speed between lines.').default(150),
    volumeRate_mm3_per_s: bounded(0.1, 200, 'Most that the nozzle melts.').default(12),
    retraction_s: bounded(0, 5, 'Time of one retraction.').default(0.3),
    layerChange_s: bounded(0, 60, 'Time between two layers.').default(2),
    minimumLayer_s: bounded(0, 120, 'Least time per layer, for cooling.').default(6),
    materialDensity_kg_per_m3: bounded(200, 12000, 'Density of the printed solid.').default(1240),
    materialPrice_per_kg: bounded(0, 10000, 'Price of the material in `currency`.').default(25),
    machineRate_per_h: bounded(0, 10000, 'Price of a machine hour in `currency`.').default(3),
    currency: z.string().min(1).max(8).describe('Name of the currency, for tables.').default('EUR'),
  })
  .describe('The printer, its limits, speeds and prices.');
