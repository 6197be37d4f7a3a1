import type { Scenario } from '../../../physics/index.ts';
import { t } from '../../i18n/text.ts';
import type { NumberId } from '../../ui/Explained.tsx';
import { limitWords, metricTitle } from '../bench/metric-rows.ts';
import { isMetric } from '../logbook/metric-words.ts';

/** One tolerance as a person reads it. */
export interface ToleranceWords {
  /** What explains the number; null for one that this program does not know. */
  readonly of: NumberId | null;
  readonly what: string;
  readonly limit: string;
}

export const toleranceWords = ({ tolerances }: Scenario): readonly ToleranceWords[] =>
  tolerances.map((item) => ({
    of: isMetric(item.metric) ? item.metric : null,
    what: metricTitle(item.metric),
    limit: limitWords(item),
  }));

/** Minutes and seconds in words. */
export function timeWords(time_s: number): string {
  const [minutes, seconds] = [Math.floor(time_s / 60), Math.round(time_s % 60)];
  const inSeconds = t('trial.rule.seconds', { count: seconds });
  if (minutes === 0) return inSeconds;
  const inMinutes = t('trial.rule.minutes', { count: minutes });
  return seconds === 0 ? inMinutes : t('trial.rule.minutesSeconds', { minutes: inMinutes, seconds: inSeconds });
}

/** What holds in a trial of this scenario, one line each. */
export function ruleLines({ aids, timeLimit_s, trial }: Scenario): readonly string[] {
  const shown = [
    aids.arrows ? t('trial.rule.arrows') : null,
    aids.targetCircle ? t('trial.rule.line') : null,
    aids.tipCard ? t('trial.rule.tipCard') : null,
  ].filter((aid) => aid !== null);
  return [
    t('trial.rule.once'),
    t('trial.rule.timeLimit', { time: timeWords(timeLimit_s) }),
    t(trial?.pause === true ? 'trial.rule.mayPause' : 'trial.rule.noPause'),
    shown.length === 0 ? t('trial.rule.noAids') : t('trial.rule.aids', { aids: shown.join(', ') }),
  ];
}
