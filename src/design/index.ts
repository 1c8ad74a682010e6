export type { Build, Channel, Design, Hole, Placement, Plate, Pocket, Section } from './model.ts';
export type { PlateSamples } from './samples.ts';
export type { Lattice, LatticeKind, Port } from './lattice.ts';
export { cosDeg, normalTurn, sinDeg } from './angles.ts';
export { layPorts } from './lattice.ts';
export {
  areaInside,
  insideDistance,
  isInside,
  outlineArea,
  outlineBounds,
  outlinePolygon,
} from './outline.ts';
export { plateOf, portMargin } from './plate.ts';
export { pocketBump, pocketDepth, pocketWindow } from './pockets.ts';
export { FAST_STATIONS, sampleDesign } from './sampling.ts';
export {
  POLYGON_SIDES,
  apexDistance,
  circumradius,
  inradius,
  polarRadius,
  sectionArea,
  sectionPerimeter,
  sectionSupport,
} from './sections.ts';
export { roofOf } from './section-frames.ts';
export { outerSides } from './pocket-sides.ts';
export { designFaults } from './validate.ts';
export { ringPoint, wallRadius, wallSupport } from './wall.ts';
