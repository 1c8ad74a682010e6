export {
  FINE_TEST_DUST,
  keptShare,
  laminarBendRate,
  plugDriftLoss,
  relaxationTime,
  settlingVelocity,
  slipCorrection,
  stokesNumber,
  thresholdFrictionVelocity,
  turbulentBendRate,
} from './particles.ts';
export type { DustClass } from './particles.ts';
