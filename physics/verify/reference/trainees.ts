/** Outcomes of the virtual trainees, as `rimward trainees` gave them; written by tests/support/write-trainees.ts. */
import type { TraineeOutcome } from '../../sweep/completion.ts';
import kept from './trainees.json' with { type: 'json' };

export interface KeptCell {
  readonly age_years: number;
  readonly fluid: 'ha-1.0' | 'ha-2.3';
  readonly behindPressure_mmHg: number;
  /** In the order of the seeds, from 1. */
  readonly outcomes: readonly Pick<TraineeOutcome, 'ended' | 'digest'>[];
}

const ENDED = { c: 'complete', r: 'run-out', o: 'open', s: 'stalled' } as const;

export const KEPT_TRAINEES: readonly KeptCell[] = kept.cells.map(({ ended, digests, ...cell }) => ({
  ...(cell as Omit<KeptCell, 'outcomes'>),
  outcomes: digests.map((digest, k) => ({ ended: ENDED[ended[k] as keyof typeof ENDED], digest })),
}));
