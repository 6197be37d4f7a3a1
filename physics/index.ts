/** The only door into the physics. */
export { bad, formatProblem, ok, type Problem, type Result } from './core/result.ts';
export type { EyeParameter, ParameterTag } from './eye/parameters.ts';
export type { GradedItem, OpeningMetrics, WorkMetrics } from './opening/metrics.ts';
export type * from './scenario/hand.ts';
export type * from './scenario/scenario.ts';
export { type AttemptResult, TEACHING_CAUTION } from './world/attempt-result.ts';
export {
  type ChamberView,
  type Ended,
  type HandCommand,
  type InstrumentView,
  type StageGeometry,
  STEP_S,
  type TipView,
  type Vec2,
  type WorldEvent,
  type WorldEventKind,
  type WorldPhase,
  type WorldView,
} from './world/contract.ts';
