export {
  FINE_TEST_DUST,
  laminarBendRate,
  plugDriftLoss,
  relaxationTime,
  settlingVelocity,
  slipCorrection,
  thresholdFrictionVelocity,
  turbulentBendRate,
} from './particles.ts';
export type { DustClass } from './particles.ts';
export { directViewFactor, discOverlap } from './light.ts';
export {
  bouncedShare,
  createZones,
  mirrorShare,
  openingToWall,
  ringToOpening,
} from './light-walls.ts';
export type { Zones } from './light-walls.ts';
export {
  addBeside,
  addBranch,
  addDuct,
  addMass,
  powerBeside,
  powerThrough,
  startChain,
} from './acoustic-chain.ts';
export type { Admittance, Chain } from './acoustic-chain.ts';
export {
  OCTAVE_BANDS_Hz,
  bandFrequency,
  cutOnFrequency,
  endLength,
  flowNoiseIndex,
  neighbourFactor,
  shearNumber,
  speedPower,
  transmissionLoss,
  wallDamping,
  whistleRange,
} from './sound.ts';
export { REACH_CAUTION, irregularDistance, safetyDistance } from './reach.ts';
export type { Containers, OpeningShape, ReachGroup } from './reach.ts';
export { accessDigit, accessRating, fingerReach, sphereDip } from './probes.ts';
export type { AccessRating } from './probes.ts';
export {
  ligamentEfficiency,
  perforatedElastic,
  slotStiffness,
  torsionConstant,
} from './ligament.ts';
export type { HolePattern, PerforatedElastic, SlotCell, SlotStiffness } from './ligament.ts';
export { bendingStress, equivalentPad, flexuralRigidity, pushPlate } from './plate-bending.ts';
export type {
  PlateOutline,
  PlateStiffness,
  PlateSupport,
  Push,
  PushedPlate,
} from './plate-bending.ts';
export type { Air } from './air.ts';
export type {
  ChannelDigests,
  DigestConditions,
  DigestRoom,
  DuctFamily,
  PlateChannels,
  ShapeFlowFacts,
  StationArrays,
} from './channel-digest.ts';
export type { FanCurve, OperatingPoint, PlatePressure } from './fan.ts';
export type { BranchPressure, FlowSplit, JointPressure } from './parallel.ts';
export type { LossParts } from './channel-loss.ts';
export { airAt, roomAir, standardPressure } from './air.ts';
export { coneAngle_deg, conicalDiffuser, diffuserRecovery } from './area-changes.ts';
export { itoQuarterBend, separationLoss } from './bends.ts';
export {
  createDigests,
  digestChannel,
  digestChannels,
  shapeFlowFacts,
  shapeFriction,
} from './channel-digest.ts';
export { openStream } from './stream-kernel.ts';
export type { KernelStream } from './stream-kernel.ts';
export { channelPressure } from './channel-loss.ts';
export { inverseLag, itoCurvedFriction, whiteFactor } from './curved.ts';
export { apparentFRe, apparentSum, shahApparentFRe } from './developing.ts';
export { ROUND_F_RE, polygonFRe, rectangleFRe, slotFRe, teardropFRe } from './ducts.ts';
export { creepingEnd, faceInlet, obliqueInletExtra, pocketLoss, sharpInlet } from './ends.ts';
export {
  FAN_STANDARD_DENSITY,
  POINT_TOLERANCE,
  fanAtSpeed,
  fanInAir,
  fanPressure,
  freeFlow,
  operatingPoint,
} from './fan.ts';
export {
  FULLY_TURBULENT,
  LAMINAR_LIMIT,
  blendedFriction,
  haalandFriction,
  turbulentShare,
} from './friction.ts';
export { gridFactor, gridLoss } from './grid.ts';
export { NETWORK_TOLERANCE, solveNetwork } from './network.ts';
export type { BranchLaw, Network, NetworkFlow } from './network.ts';
export { guessFlows } from './split-start.ts';
export { SPLIT_TOLERANCE, createFlowSplit, splitFlow, splitSlope } from './parallel.ts';
export { ridgeLoss } from './lips.ts';
export { printRoughness } from './roughness.ts';
export {
  RIB_RANGE,
  pumpingIndex,
  ribDoubts,
  ribHeightPlus,
  ribLaminarRise,
  ribNusselt,
  ribRoughFriction,
  ribRoughness,
  ribbedFriction,
  ribbedHeat,
} from './ribs.ts';
export type { Ribs } from './ribs.ts';
export { readTable, tabulate } from './table.ts';
export {
  channelNusselt,
  curvedNusselt,
  entryExponent,
  entryFunction,
  gnielinskiNusselt,
  meanNusselt,
  thermalEntryNusselt,
  turbulentRise,
} from './convection.ts';
export type { LaminarDuct } from './convection.ts';
export { effectiveness } from './exchanger.ts';
export { finEfficiency, finParameter } from './fins.ts';
export { channelUnits } from './heat-channel.ts';
export type { HeatFamily, HeatStream } from './heat-channel.ts';
export { polygonNusselt, roundNusselt, slotNusselt, teardropNusselt } from './heat-ducts.ts';
export type { WallCondition } from './heat-ducts.ts';
export {
  addStream,
  createLayerHeat,
  solveLayers,
  startLayers,
  streamWarming,
} from './heat-layers.ts';
export type { LayerHeat, LayerStream } from './heat-layers.ts';
export { HEAT_TOLERANCE, solveHeat } from './conduction.ts';
export type { HeatSolution } from './conduction.ts';
export { AIR_WAY } from './heat-net.ts';
export type { HeatNet } from './heat-net.ts';
