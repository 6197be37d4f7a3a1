import { useEffect, useMemo, useRef, useState } from 'react';
import { Trans } from 'react-i18next';
import type { AttemptResult, GuidedHand, Scenario } from '../../../physics/index.ts';
import { gradeSentence, handTitle } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import { Explained, type NumberId } from '../../ui/Explained.tsx';
import { number } from '../../ui/format.ts';
import { endedWords, runOutStory } from '../../ui/words.ts';
import { gradedRows, openingRows, workRows } from '../bench/metric-rows.ts';
import { OpeningDrawing } from '../logbook/outside/OpeningDrawing.tsx';
import { NumberInput } from './NumberInput.tsx';
import { handsFor, onCircle, usualCircle_mm } from './try-hands.ts';
import type { TryAnswer } from './try-worker.ts';

type Trying =
  | { readonly state: 'idle' }
  | { readonly state: 'running'; readonly time_s: number; readonly torn_mm: number }
  | { readonly state: 'done'; readonly result: AttemptResult; readonly scenario: Scenario }
  | { readonly state: 'fault'; readonly message: string };

/** Runs one hand at a time; a new run or leaving the place ends the one before. */
function useTry() {
  const worker = useRef<Worker | null>(null);
  const [trying, setTrying] = useState<Trying>({ state: 'idle' });
  const end = () => {
    worker.current?.terminate();
    worker.current = null;
  };
  useEffect(
    () => () => {
      worker.current?.terminate();
      worker.current = null;
    },
    [],
  );
  const start = (scenario: Scenario, hand: GuidedHand) => {
    end();
    const made = new Worker(new URL('./try-worker.ts', import.meta.url), { type: 'module' });
    worker.current = made;
    setTrying({ state: 'running', time_s: 0, torn_mm: 0 });
    const failed = (message: string) => {
      end();
      setTrying({ state: 'fault', message });
    };
    made.addEventListener('error', (event) => failed(event.message || t('eyes.try.notLoaded')));
    made.addEventListener('message', ({ data }: MessageEvent<TryAnswer>) => {
      if (worker.current !== made) return;
      if (data.kind === 'progress') setTrying({ state: 'running', time_s: data.time_s, torn_mm: data.torn_mm });
      if (data.kind === 'fault') failed(data.message);
      if (data.kind !== 'done') return;
      end();
      setTrying({ state: 'done', result: data.result, scenario });
    });
    made.postMessage({ scenario, hand });
  };
  const cancel = () => {
    end();
    setTrying({ state: 'idle' });
  };
  return { trying, start, cancel };
}

/** A guided hand tries the scenario as it stands, saved or not. */
export function TryPart({ scenario }: { readonly scenario: Scenario | null }) {
  const { trying, start, cancel } = useTry();
  const [handId, setHandId] = useState<string | null>(null);
  const [circle, setCircle] = useState<number | string | null>(null);
  const hands = useMemo(() => (scenario === null ? [] : handsFor(scenario)), [scenario]);
  const hand = hands.find(({ id }) => id === handId) ?? hands[0];
  if (scenario === null) return <p className="eyes-hint">{t('eyes.try.problemsFirst')}</p>;
  if (hand === undefined) return <p className="eyes-hint">{t('eyes.try.noHand')}</p>;
  const usual = usualCircle_mm(hand, scenario);
  const diameter = circle ?? usual;
  const fits = usual === null || (typeof diameter === 'number' && diameter >= 1 && diameter <= 9);
  return (
    <>
      <p className="eyes-hint">{t('eyes.try.hint')}</p>
      <label className="eyes-wide-label">
        {t('eyes.try.hand')}
        <select
          data-testid="try-hand"
          value={hand.id}
          onChange={(event) => {
            setHandId(event.target.value);
            setCircle(null);
          }}
        >
          {hands.map((one) => (
            <option key={one.id} value={one.id}>
              {handTitle(one)}
            </option>
          ))}
        </select>
      </label>
      {usual !== null && (
        <div className="eyes-circle">
          <label htmlFor="try-circle">{t('eyes.try.circle')}</label>
          <NumberInput
            id="try-circle"
            testid="try-circle"
            value={diameter ?? usual}
            step={0.1}
            invalid={!fits}
            onValue={setCircle}
          />
          <span>{t('eyes.try.circleUnit')}</span>
        </div>
      )}
      <div className="eyes-buttons">
        <button
          type="button"
          data-testid="try-start"
          disabled={trying.state === 'running' || !fits}
          onClick={() => start(scenario, typeof diameter === 'number' ? onCircle(hand, diameter) : hand)}
        >
          {t('eyes.try.start')}
        </button>
        {trying.state === 'running' && (
          <button type="button" data-testid="try-cancel" onClick={cancel}>
            {t('eyes.try.stop')}
          </button>
        )}
      </div>
      <TryOutcome trying={trying} scenario={scenario} />
    </>
  );
}

function TryOutcome({ trying, scenario }: { readonly trying: Trying; readonly scenario: Scenario }) {
  if (trying.state === 'idle') return null;
  if (trying.state === 'fault') {
    return (
      <p className="eyes-wrong" role="alert">
        {t('eyes.try.fault', { why: trying.message })}
      </p>
    );
  }
  if (trying.state === 'running') {
    const round = Math.PI * scenario.target.lineDiameter_mm;
    return (
      <div role="status" data-testid="try-running">
        <progress max={1} value={Math.min(1, trying.torn_mm / round)} aria-label={t('eyes.try.wayRound')} />
        <p>
          <Trans
            t={t}
            i18nKey="eyes.try.running"
            values={{ torn: number(trying.torn_mm, 1), time: number(trying.time_s, 0), round: number(round, 0) }}
            components={{ torn: <Explained of="torn">{''}</Explained> }}
          />
        </p>
      </div>
    );
  }
  return <TryResult result={trying.result} scenario={trying.scenario} stale={trying.scenario !== scenario} />;
}

function TryResult({
  result,
  scenario,
  stale,
}: {
  readonly result: AttemptResult;
  readonly scenario: Scenario;
  readonly stale: boolean;
}) {
  const story = runOutStory(result.events);
  const drawn =
    result.outline_mm === null ? [] : [{ key: 'try', label: t('eyes.try.relaxed'), outline_mm: result.outline_mm }];
  const metrics = result.opening === null ? workRows(result.work) : openingRows(result.opening);
  return (
    <div data-testid="try-result" data-ended={result.ended} data-passed={String(result.passed)}>
      <p className={result.passed ? 'eyes-met' : 'eyes-missed'}>
        <b>
          <span aria-hidden="true">{result.passed ? '✓' : '✕'}</span>{' '}
          {t(result.passed ? 'eyes.try.met' : result.ended === 'complete' ? 'eyes.try.missed' : 'eyes.try.incomplete')}
        </b>
        {stale ? ` ${t('eyes.try.before')}` : ''}
      </p>
      <p>{endedWords(result.ended)}</p>
      {story !== null && <p>{story}</p>}
      {drawn.length > 0 && (
        <OpeningDrawing
          openings={drawn}
          targetDiameter_mm={scenario.target.diameter_mm}
          opticDiameter_mm={scenario.target.opticDiameter_mm}
          title={t('eyes.try.drawing')}
        />
      )}
      <ul className="eyes-graded" aria-label={t('eyes.try.tolerances')}>
        {gradedRows(result).map((row) => (
          <li key={row.key} className={row.met ? 'eyes-met' : 'eyes-missed'}>
            <span aria-hidden="true">{row.met ? '✓' : '✕'}</span> {gradeSentence(row)}
          </li>
        ))}
      </ul>
      <details>
        <summary>{t('eyes.try.all')}</summary>
        <dl className="eyes-lines">
          {metrics.map((row) => (
            <div key={row.key}>
              <dt>
                <Explained of={row.key as NumberId}>{row.label}</Explained>
              </dt>
              <dd data-testid={`try-${row.key}`}>{row.text}</dd>
            </div>
          ))}
        </dl>
      </details>
      <p className="eyes-hint">{t('common.caution')}</p>
    </div>
  );
}
