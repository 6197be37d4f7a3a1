import { useState } from 'react';
import { faultText } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { usePlace } from '../../stores/place-store.ts';
import { useSession } from '../../stores/session-store.ts';

/** What can be done with an attempt once the logbook has it. */
export function KeptButtons() {
  const keeping = useSession((state) => state.keeping);
  const [problem, setProblem] = useState<string | null>(null);
  if (keeping.state !== 'finished') return null;
  const { id } = keeping.summary;
  const print = () => window.rimwardHost?.openAttemptReport(id).catch((fault: unknown) => setProblem(faultText(fault)));
  return (
    <>
      <button type="button" data-testid="print-report" onClick={() => void print()}>
        {t('bench.kept.print')}
      </button>
      <button
        type="button"
        data-testid="see-in-logbook"
        onClick={() => usePlace.getState().go('logbook', `attempt:${id}`)}
      >
        {t('bench.kept.see')}
      </button>
      {problem !== null && (
        <p className="problems" role="alert">
          {problem}
        </p>
      )}
    </>
  );
}
