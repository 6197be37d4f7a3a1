import type { Scenario } from '../../../physics/index.ts';
import { limitWords, metricTitle } from '../bench/metric-rows.ts';

/** One tolerance as a person reads it. */
export interface ToleranceWords {
  readonly what: string;
  readonly limit: string;
}

export const toleranceWords = ({ tolerances }: Scenario): readonly ToleranceWords[] =>
  tolerances.map((item) => ({ what: metricTitle(item.metric), limit: limitWords(item) }));

/** Minutes and seconds in words. */
export function timeWords(time_s: number): string {
  const [minutes, seconds] = [Math.floor(time_s / 60), Math.round(time_s % 60)];
  const many = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;
  if (minutes === 0) return many(seconds, 'second');
  return seconds === 0 ? many(minutes, 'minute') : `${many(minutes, 'minute')} ${many(seconds, 'second')}`;
}

/** What holds in a trial of this scenario, one line each. */
export function ruleLines({ aids, timeLimit_s, trial }: Scenario): readonly string[] {
  const shown = [
    aids.arrows ? 'arrows at the tip' : null,
    aids.targetCircle ? 'the line to follow' : null,
    aids.tipCard ? 'the tip card' : null,
  ].filter((aid) => aid !== null);
  return [
    'One attempt, no start-over. It is kept and graded however it ends.',
    `Time limit: ${timeWords(timeLimit_s)}.`,
    trial?.pause === true ? 'The clock may be paused.' : 'No pause: the clock runs on.',
    shown.length === 0 ? 'No aids.' : `Aids: ${shown.join(', ')}. Nothing can be turned on or off.`,
  ];
}
