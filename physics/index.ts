/** The only door into the physics. */
export { ANNULUS_RIM_STRETCH, type AnnulusSample, annulusSample } from './bench/annulus.ts';
export { scaledAwayFromTip, scaledSizes } from './bench/refined.ts';
export { type SparseSample, sparseSample } from './bench/sparse.ts';
export { createRandom } from './core/random.ts';
export { bad, formatProblem, ok, type Problem, type Result } from './core/result.ts';
export { type Eye, type EyeOptions, eyeAt, OLDEST_AGE_years } from './eye/age.ts';
export { createChamber, MMHG_kPa, netPressureAtTension_mmHg, uncutTension_mN_per_mm } from './eye/chamber.ts';
export {
  closedLeakTime_s,
  dragPerArea_mN_s_per_mm3,
  FLUID_IDS,
  type Fluid,
  fluidById,
  leakTime_s,
} from './eye/fluid.ts';
export { eyeParameters } from './eye/parameter-list.ts';
export type { EyeParameter, ParameterTag } from './eye/parameters.ts';
export { lineDiameterFor_mm, openingEnlargement, referenceRadius_mm, rimAnchorRadius_mm } from './eye/radial.ts';
export { stretchAtTension, unitLineTension_mN_per_mm } from './eye/tension.ts';
export { clockWords } from './opening/clock-words.ts';
export {
  type CostlyMoment,
  costlyMoments,
  MOMENT_YARDSTICKS,
  type MomentKind,
  type MomentSample,
  MUCH_FORCE_mN,
  type TornEnd,
} from './opening/costly-moments.ts';
export { createMomentRecorder, type MomentRecorder } from './opening/costly-recorder.ts';
export {
  type CourseLimits,
  courseLimitsOf,
  type FlatLimits,
  flatLimits,
  LIMIT_PREFERENCES,
  type LimitKey,
  limitProblems,
  limitsOf,
  USUAL_LIMITS,
} from './opening/course-limits.ts';
export {
  type BoundaryRisks,
  CUSUM_EXPLAINED,
  type FailureRates,
  type FirstAt,
  type LearningCusum,
  type LearningWeights,
  learningCusum,
  learningWeights,
  rateProblems,
  riskProblems,
  type TabularCusum,
  type TwoBoundaryCusum,
  type TwoBoundaryWeights,
  tabularCusum,
  twoBoundaryCusum,
  twoBoundaryWeights,
  USUAL_RATES,
  USUAL_RISKS,
} from './opening/cusum.ts';
export { LIMIT_RUNS, type LimitWanted, type SimulatedLimit, simulateLimit } from './opening/cusum-limit.ts';
export { measureOpening, type OpeningReference } from './opening/measure-opening.ts';
export { METRIC_LABELS, type MetricKey, type MetricLabel } from './opening/metric-labels.ts';
export type { GradedItem, OpeningMetrics, WorkMetrics } from './opening/metrics.ts';
export { parseOutline } from './opening/parse-outline.ts';
export { MAX_OUTLINE_POINTS } from './opening/sound-outline.ts';
export { attemptResult, handPlayer, MODEL_VERSION, type RunOptions, runHand } from './scenario/attempt.ts';
export type * from './scenario/hand.ts';
export {
  capProblems,
  describeFound,
  parseJsonText,
  problemsOf,
  valueAt,
  versionProblem,
} from './scenario/json-problems.ts';
export { checkHand, handMisfits, parseHand } from './scenario/parse-hand.ts';
export { checkScenario, parseScenario } from './scenario/parse-scenario.ts';
export type * from './scenario/scenario.ts';
export {
  type CompletionCell,
  completionScenario,
  type Share,
  shareWithInterval,
  type TraineeOutcome,
  traineeOutcomes,
} from './sweep/completion.ts';
export {
  type MeasureInfo,
  SWEEP_MEASURES,
  type SweepCell,
  type SweepMeasure,
  type SweepValues,
  sweepCell,
} from './sweep/measures.ts';
export type { PublishedPoint } from './sweep/published.ts';
export type { SampleOptions } from './sweep/sample-eye.ts';
export { HEADLINES, type SensitivityCase, sensitivityCases } from './sweep/sensitivity.ts';
export { TRAINEES, type TraineePopulation } from './sweep/trainees.ts';
export type { Attempt, Check, CheckContext } from './verify/check.ts';
export { allChecks } from './verify/checks.ts';
export type { Tolerance } from './verify/compare.ts';
export { allAgree, type CheckRow, runCheck, runChecks } from './verify/run-checks.ts';
export { type AttemptResult, TEACHING_CAUTION } from './world/attempt-result.ts';
export {
  type ChamberView,
  type Ended,
  type HandCommand,
  type InstrumentView,
  STEP_S,
  type StageGeometry,
  type TipView,
  type Vec2,
  type WorldEvent,
  type WorldEventKind,
  type WorldPhase,
  type WorldView,
} from './world/contract.ts';
export { digestWorld } from './world/digest.ts';
export { stageGeometry } from './world/frame.ts';
export { type PolarDrivingForce, type PolarOptions, polarDrivingForce } from './world/polar.ts';
export { startLines_mm } from './world/start-lines.ts';
export type { World } from './world/state.ts';
export { viewWorld } from './world/view.ts';
export { createWorld, stepWorld, type WorldOptions } from './world/world.ts';
