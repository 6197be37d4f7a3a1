import { useMemo } from 'react';
import type { AttemptSummary } from '../../../src-main/ipc/contract.ts';
import { textOf } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { passedWords, whenWords } from './attempt-columns.ts';
import { openPage, useLogbook } from './logbook-store.ts';

/** Most attempts offered to compare with. */
const MOST = 100;

/** Chooses a second attempt: the same eye first, then the same person's others. */
export function CompareWith({ summary }: { readonly summary: AttemptSummary }) {
  const attempts = useLogbook((state) => state.attempts);
  const others = useMemo(() => candidates(summary, attempts), [summary, attempts]);
  return (
    <select
      className="log-as-button"
      value=""
      aria-label={t('logbook.compare.with')}
      disabled={others.length === 0}
      onChange={(event) => openPage({ kind: 'compare', ids: [summary.id, event.target.value] })}
      data-testid="compare-with"
    >
      <option value="">{t('logbook.compare.withShort')}</option>
      {others.map((one) => (
        <option key={one.id} value={one.id}>
          {t('logbook.compare.option', {
            when: whenWords(one.startedAt),
            person: one.personName,
            eye: textOf(one.scenarioTitle),
            passed: passedWords(one.passed),
          })}
        </option>
      ))}
    </select>
  );
}

/** Finished attempts, those in the same eye first, the same person's first among them. */
export function candidates(summary: AttemptSummary, attempts: readonly AttemptSummary[]): AttemptSummary[] {
  const near = (one: AttemptSummary): number =>
    (one.scenarioId === summary.scenarioId ? 0 : 2) + (one.personId === summary.personId ? 0 : 1);
  return attempts
    .filter((one) => one.id !== summary.id && one.ended !== null)
    .map((one) => ({ one, rank: near(one) }))
    .sort((a, b) => a.rank - b.rank)
    .slice(0, MOST)
    .map(({ one }) => one);
}
