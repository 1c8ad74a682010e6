export type { Build, Channel, Design, Hole, Placement, Plate, Pocket, Section } from './model.ts';
export type { PlateSamples } from './samples.ts';
