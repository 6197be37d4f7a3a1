import {
  type CompletionCell,
  type SweepCell,
  type SweepValues,
  sweepCell,
  type TraineeOutcome,
  traineeOutcomes,
} from '../../physics/index.ts';

/** What one core is given at a time: a row of a chart, or some trainees in one eye. */
export type Cell = SweepCell | CompletionCell;

/** What comes of it. */
export type Values<C extends Cell> = C extends CompletionCell ? readonly TraineeOutcome[] : SweepValues;

export function valuesOf(cell: Cell): SweepValues | readonly TraineeOutcome[] {
  return 'measure' in cell ? sweepCell(cell) : traineeOutcomes(cell);
}
