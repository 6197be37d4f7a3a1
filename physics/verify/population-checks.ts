/**
 * Checks of the virtual trainees: C10, C11. A population is an hour of a processor, so its outcomes are kept as data, made by
 * `rimward trainees`; the check plays the first of each cell anew and takes the rest only when those come out the same to the bit.
 */
import { shareWithInterval, traineeOutcomes } from '../sweep/completion.ts';
import type { Check, Finding } from './check.ts';
import { OF_ITS_SIGN } from './compare.ts';
import { KEPT_TRAINEES, type KeptCell } from './reference/trainees.ts';

/** Trainees of each cell that are played anew. */
const PLAYED = 1;

function cellOf(age_years: number, fluid: KeptCell['fluid']): KeptCell {
  const cell = KEPT_TRAINEES.find((kept) => kept.age_years === age_years && kept.fluid === fluid);
  if (cell === undefined) throw new Error(`no outcomes are kept for ${age_years} years under ${fluid}`);
  const again = traineeOutcomes({ ...cell, firstSeed: 1, count: PLAYED });
  for (const { seed, ended, digest } of again) {
    const kept = cell.outcomes[seed - 1];
    if (kept.ended !== ended || kept.digest !== digest)
      throw new Error(
        `trainee ${seed} at ${age_years} years under ${fluid} ends ${ended} (${digest}), kept: ${kept.ended} (${kept.digest})`,
      );
  }
  return cell;
}

const shareOf = ({ outcomes }: KeptCell, ended: string) =>
  shareWithInterval(outcomes.filter((outcome) => outcome.ended === ended).length, outcomes.length);

const words = (cell: KeptCell, ended: string): string => {
  const { share, low, high } = shareOf(cell, ended);
  const percent = (value: number) => Math.round(100 * value);
  return `${percent(share)} % (${percent(low)} to ${percent(high)}) of ${cell.outcomes.length}`;
};

/** Child and adult, years. */
const AGE = { child: 3, adult: 65 } as const;
const THICK = 'ha-2.3';
const THIN = 'ha-1.0';

/** 9 of 10 finished under thick fluid and 7 of 15 under thin, in children. Judged is the sign. */
const FINISHED_MORE = 9 / 10 - 7 / 15;
/** One in three lost in child specimens, under one in a hundred in adults. Judged is the sign. */
const LOST_MORE = 1 / 3 - 0.01;

/** What share of one cell ended so, less that of another. Judged is the sign. */
function difference(
  quantity: string,
  ended: string,
  [more, less]: readonly [KeptCell, KeptCell],
  published: number,
): Finding {
  return {
    quantity,
    computed: shareOf(more, ended).share - shareOf(less, ended).share,
    reference: published,
    unit: '1',
    tolerance: OF_ITS_SIGN,
    note: `the same hands: ${words(more, ended)} and ${words(less, ended)}`,
  };
}

const byFluid = (): readonly Finding[] => [
  difference(
    'share finished under thick fluid less that under thin, 3 years, 10 mmHg from behind',
    'complete',
    [cellOf(AGE.child, THICK), cellOf(AGE.child, THIN)],
    FINISHED_MORE,
  ),
];

const byAge = (): readonly Finding[] => [
  difference(
    'share run out at 3 years less that at 65, thin fluid, 10 mmHg from behind',
    'run-out',
    [cellOf(AGE.child, THIN), cellOf(AGE.adult, THIN)],
    LOST_MORE,
  ),
];

export const populationChecks: readonly Check[] = [
  {
    name: 'C10',
    problem: 'completion by fluid',
    source:
      'Jeng 2004, J Cataract Refract Surg 30:85: in children 9 of 10 finished under 2.3 % hyaluronate, 7 of 15 under thinner',
    first: false,
    quick: false,
    run: byFluid,
  },
  {
    name: 'C11',
    problem: 'manual tears lost by age',
    source:
      'child specimens about 1 in 3 (6 of 18, J Cataract Refract Surg 1994;20:602), adults under 1 in 100 (21 of 2646 and, ' +
      'Abell 2014, 1 of 822)',
    first: false,
    quick: false,
    run: byAge,
  },
];
