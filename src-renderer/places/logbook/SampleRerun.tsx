import { useRef, useState } from 'react';
import { t } from '../../i18n/text.ts';
import { replayToEnd } from '../../worker/replay-client.ts';
import { noteReplayed } from './attempt-replay.ts';
import { attemptTitle } from './attempt-words.ts';
import { loadLogbook } from './logbook-store.ts';
import { faultWords, storeHost } from './store-host.ts';

interface SampleLine {
  readonly id: string;
  readonly title: string;
  readonly words: string;
  readonly bad: boolean;
}

/** Plays one of the sample again and says what came of it. */
async function rerun(id: string, signal: AbortSignal, tell: (share: number) => void): Promise<SampleLine> {
  let title = t('logbook.sample.anAttempt');
  try {
    const stored = await storeHost().loadAttempt(id);
    const { scenario, commands, summary } = stored;
    title = attemptTitle(summary);
    if (summary.seal === 'broken') return { id, title, words: t('logbook.sample.sealBroken'), bad: true };
    const end = await replayToEnd({ scenario, seed: summary.seed, commands }, signal, tell);
    await noteReplayed(stored, end);
    const same = end.result.digest === summary.digest;
    return { id, title, words: t(same ? 'logbook.sample.same' : 'logbook.sample.different'), bad: !same };
  } catch (fault) {
    return { id, title, words: t('logbook.sample.failed', { fault: faultWords(fault) }), bad: true };
  }
}

/** Proof by sample: a few attempts of a bundle are played again here, and must give the openings they claim. */
export function SampleRerun({ sample }: { readonly sample: readonly string[] }) {
  const [lines, setLines] = useState<readonly SampleLine[]>([]);
  const [share, setShare] = useState<number | null>(null);
  const stop = useRef<AbortController | null>(null);
  const run = async () => {
    const controller = new AbortController();
    stop.current = controller;
    setLines([]);
    for (const [at, id] of sample.entries()) {
      if (controller.signal.aborted) break;
      const line = await rerun(id, controller.signal, (part) => setShare((at + part) / sample.length));
      setLines((now) => [...now, line]);
    }
    setShare(null);
    await loadLogbook();
  };
  return (
    <div className="log-sample-rerun" data-testid="sample">
      {share === null ? (
        <button type="button" onClick={() => void run()} data-testid="sample-run">
          {t('logbook.sample.run', { count: sample.length })}
        </button>
      ) : (
        <>
          <progress value={share} max={1} aria-label={t('logbook.sample.playing')} />
          <button type="button" onClick={() => stop.current?.abort()}>
            {t('logbook.does.stop')}
          </button>
        </>
      )}
      <ul>
        {lines.map(({ id, title, words, bad }) => (
          <li key={id} className={bad ? 'log-missed' : undefined} data-testid="sample-line" data-bad={String(bad)}>
            {t('logbook.sample.line', { attempt: title, outcome: words })}
          </li>
        ))}
      </ul>
    </div>
  );
}
