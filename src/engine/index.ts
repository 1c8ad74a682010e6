export { PARTS, VERSION } from './version.ts';
export { measure } from './assess.ts';
export type { Measured, Stream } from './assess.ts';
export { compareWithBaseline, sweepBaseline } from './baseline.ts';
export type { Baseline, BaselineComparison, BaselineFamily, BaselinePlate } from './baseline.ts';
export { CALIBRATE_DEFAULTS, calibrate } from './calibrate.ts';
export type {
  BenchReading,
  CalibrateOptions,
  Calibrated,
  CalibratedReading,
  PartReport,
} from './calibrate.ts';
export { attainmentOf, compareFronts } from './compare.ts';
export { commonMeasures } from './compare-measures.ts';
export type { AttainmentSurface, ComparedFront, Comparison, FrontStanding } from './compare.ts';
export type { ListedRun } from './listed-run.ts';
export { COUPON_DEFAULTS, cutCoupon } from './coupon.ts';
export type { Coupon, CouponOptions } from './coupon.ts';
export { layersOf, modelPart, shadeBody } from './part-model.ts';
export type { BodyKind, PartModel, ShadeKind, ShownBody } from './part-model.ts';
export type { LayerBook, LayerPicture } from '../print/index.ts';
export { portrayDesign } from './portrait.ts';
export type { Portrait } from './portrait.ts';
export { designFlow_m3_per_h, pressureCurve } from './pressure-curve.ts';
export type { PressurePoint } from './pressure-curve.ts';
export { flowSplit } from './verify-split.ts';
export type { SplitChannel } from './verify-split.ts';
export { planVerification, verifyPlan } from './verify.ts';
export type { VerifyState, Verified, VerifyPlan, VerifyProgress } from './verify.ts';
export { fitCorrection } from './correction.ts';
export type { CorrectedCase, FittedCorrection } from './correction.ts';
export {
  casesFor,
  plateDigest,
  solveTask,
  solvedBefore,
  stateKey,
  verifyTasks,
} from './verify-cases.ts';
export type { VerifyChoice, VerifySolved, VerifyTask, VerifyTasks } from './verify-cases.ts';
export { differentDesigns } from './verify-front.ts';
export { createEvaluator } from './evaluator.ts';
export type { Evaluator } from './evaluator.ts';
export {
  LARGEST_FRONT_FILE,
  frontText,
  historyEntries,
  notesText,
  openFile,
  openRunTexts,
  runZip,
} from './front-files.ts';
export type { FlowWords, FrontForm, Opened, OpenedFront, ZippedRun } from './front-files.ts';
export {
  frontPicture,
  frontReport,
  markWords,
  markedIds,
  marksOf,
  reportDesign,
  reportText,
  withoutPictures,
} from './report.ts';
export type { ComputedFlow, FrontMarks } from './report.ts';
export { MESH_FORMS, designText, meshBytes } from './files.ts';
export type { MeshForm } from './files.ts';
export { evolve, frontOf } from './evolve.ts';
export type { EvolveOptions, RunEvent, StopReason } from './evolve.ts';
export { explainBrief } from './explain.ts';
export type { BriefExplained, StraightPlate } from './explain.ts';
export { listMeasures } from './listing.ts';
export { designOf, findDesign, namedGenes, startFrom } from './rebuild.ts';
export type { FrontGenes } from './rebuild.ts';
export { bestOf, kneeOf } from './knee.ts';
export { ribWidth } from '../genome/index.ts';
export { drawCutOpen, drawPlate } from './picture.ts';
export { sketchBrief } from './sketch.ts';
export type { Sketch } from './sketch.ts';
export { loadSolids, solid } from './solid.ts';
export { checkBrief } from './check.ts';
export type {
  Checkpoint,
  Front,
  FrontDesign,
  GeneInfo,
  HistoryEntry,
  LimitMargin,
  MeasureInfo,
  Reading,
  StartResult,
} from './model.ts';
export type { Crew, EvaluateJob, Evaluated, Form, Ports } from './ports.ts';
export type { ExtraStart } from './run.ts';
export { plainBrief } from '../genome/index.ts';
// The engine's callers speak of briefs and designs in the rooms' own types.
export { InputError, RunError, briefJsonSchema } from '../brief/index.ts';
export type { Brief } from '../brief/index.ts';
export type { Design } from '../design/index.ts';
export { frontDigest, writeCheckpointFile } from '../formats/index.ts';
export type { DesignNote, Notes, ReportDesign, RunTexts } from '../formats/index.ts';
