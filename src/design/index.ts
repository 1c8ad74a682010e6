export type {
  Build,
  Channel,
  ChannelEnd,
  Design,
  Hole,
  Placement,
  Plate,
  Plenum,
  Pocket,
  Section,
  Teeth,
} from './model.ts';
export { END, twistAngle } from './samples.ts';
export type { PlateSamples, SideEnds } from './samples.ts';
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
export { outwards } from './outline-normal.ts';
export { outlineReach } from './outline-reach.ts';
export { plateOf } from './plate.ts';
export { plenumDistance, plenumRadii, plenumSection, plenumVolume, steepestTop } from './plenum.ts';
export { endOverrun, endRise, hasSideEnd, isSided } from './side-ends.ts';
export { pocketBump, pocketDepth, pocketLip, pocketWindow } from './pockets.ts';
export { FAST_STATIONS, sampleDesign } from './sampling.ts';
export {
  POLYGON_SIDES,
  apexDistance,
  circumradius,
  polarRadius,
  sectionArea,
  sectionPerimeter,
  sectionSupport,
} from './sections.ts';
export { roofOf } from './section-frames.ts';
export { outerSides } from './pocket-sides.ts';
export { HIGHEST_LIP } from './validate-walls.ts';
export { HIGHEST_TOOTH, toothHeight, toothSlope, toothVolume } from './teeth.ts';
export type { PlateTeeth } from './teeth.ts';
export { builtSamples, tipSamples, toothedSamples } from './teeth-views.ts';
export { designFaults } from './validate.ts';
export { ringPoint, wallRadius, wallSupport } from './wall.ts';
