import { useEffect, useState } from 'react';
import type { OpeningMetrics, Vec2 } from '../../../../physics/index.ts';
import type { AttemptSummary } from '../../../../src-main/ipc/contract.ts';
import { faultText } from '../../../i18n/content.ts';
import { t } from '../../../i18n/text.ts';
import { attemptTitle } from '../attempt-words.ts';

/** A stored attempt whose opening is drawn beside. */
export interface Compared {
  readonly id: string;
  readonly label: string;
  readonly outline_mm: readonly Vec2[];
  readonly opening: OpeningMetrics;
}

/** So many outlines can still be told apart. */
const MOST = 3;
const OFFERED = 200;

const said = (fault: unknown): string => faultText(fault);

async function outlineOf({ id, personId, scenarioId }: AttemptSummary): Promise<readonly Vec2[]> {
  const shapes = (await window.rimwardHost?.openingShapes({ personId, scenarioId })) ?? [];
  const found = shapes.find(({ attemptId }) => attemptId === id);
  if (found === undefined) throw new Error(t('logbook.outside.noOutline'));
  return found.outline_mm;
}

/** Chooses stored attempts with a complete opening, to stand beside the one from outside. */
export function CompareAttempts({
  chosen,
  onChoose,
}: {
  readonly chosen: readonly Compared[];
  onChoose(next: readonly Compared[]): void;
}) {
  const [attempts, setAttempts] = useState<readonly AttemptSummary[]>([]);
  const [line, setLine] = useState<string | null>(null);
  useEffect(() => {
    let here = true;
    window.rimwardHost
      ?.listAttempts({ limit: OFFERED })
      .then((all) => here && setAttempts(all.filter(({ opening }) => opening !== null)))
      .catch((fault: unknown) => here && setLine(said(fault)));
    return () => {
      here = false;
    };
  }, []);
  const add = async (id: string) => {
    const attempt = attempts.find((one) => one.id === id);
    if (attempt === undefined || attempt.opening === null) return;
    try {
      const outline_mm = await outlineOf(attempt);
      setLine(null);
      onChoose([...chosen, { id, label: attemptTitle(attempt), outline_mm, opening: attempt.opening }]);
    } catch (fault) {
      setLine(said(fault));
    }
  };
  const free = attempts.filter(({ id }) => !chosen.some((one) => one.id === id));
  return (
    <fieldset className="outside-box">
      <legend>{t('logbook.outside.beside')}</legend>
      {attempts.length === 0 && <p className="outside-hint">{t('logbook.outside.noStored')}</p>}
      {free.length > 0 && chosen.length < MOST && (
        <select
          data-testid="compare-add"
          aria-label={t('logbook.outside.addOne')}
          value=""
          onChange={(event) => void add(event.target.value)}
        >
          <option value="">{t('logbook.outside.addOneShort')}</option>
          {free.map((attempt) => (
            <option key={attempt.id} value={attempt.id}>
              {attemptTitle(attempt)}
            </option>
          ))}
        </select>
      )}
      <ul className="outside-chosen">
        {chosen.map((one) => (
          <li key={one.id}>
            <span>{one.label}</span>
            <button
              type="button"
              aria-label={t('logbook.outside.takeAwayWhich', { attempt: one.label })}
              onClick={() => onChoose(chosen.filter(({ id }) => id !== one.id))}
            >
              {t('logbook.outside.takeAway')}
            </button>
          </li>
        ))}
      </ul>
      {line !== null && (
        <p className="outside-problems" role="alert">
          {line}
        </p>
      )}
    </fieldset>
  );
}
