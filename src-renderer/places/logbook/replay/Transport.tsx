import { Trans } from 'react-i18next';
import { useStore } from 'zustand';
import { STEP_S, type WorldEvent } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { clockTime } from '../../../ui/format.ts';
import { SpeedSelect } from '../../../ui/SpeedSelect.tsx';
import { marksOf } from './event-marks.ts';
import { type ReplayPlayer, SPEEDS } from './replay-player.ts';

/** Play, speed, single frames, and a line of time to draw along with marks where things happened. */
export function Transport({
  player,
  events,
}: {
  readonly player: ReplayPlayer;
  readonly events: readonly WorldEvent[];
}) {
  const { playing, speed, step, of, done, every } = useStore(player.store);
  const times = { time: clockTime(step * STEP_S), end: clockTime(of * STEP_S) };
  return (
    <section className="log-transport" aria-label={t('logbook.replay.label')}>
      <button type="button" onClick={() => player.play(!playing)} aria-pressed={playing} data-testid="replay-play">
        {t(playing ? 'logbook.replay.pause' : 'logbook.replay.play')} <kbd>{t('logbook.replay.space')}</kbd>
      </button>
      <SpeedSelect
        label={t('logbook.replay.speed')}
        speeds={SPEEDS}
        value={speed}
        onValue={(one) => player.setSpeed(one)}
        testid="speed"
      />
      <button
        type="button"
        onClick={() => player.nudge(-1)}
        aria-label={t('logbook.replay.frameBack')}
        data-testid="frame-back"
      >
        ◀ <kbd>←</kbd>
      </button>
      <button
        type="button"
        onClick={() => player.nudge(1)}
        aria-label={t('logbook.replay.frameOn')}
        data-testid="frame-on"
      >
        ▶ <kbd>→</kbd>
      </button>
      <span className="log-scrub">
        <EventMarks events={events} of={of} />
        <input
          type="range"
          min={0}
          max={Math.max(1, of)}
          step={1}
          value={step}
          onChange={(event) => player.seek(Number(event.target.value))}
          aria-label={t('logbook.replay.momentShown')}
          aria-valuetext={t('logbook.replay.timeOf', times)}
          data-testid="scrub"
        />
        <ComputedBar share={of === 0 ? 1 : done / of} />
      </span>
      <output className="log-clock" data-testid="replay-time">
        <Trans i18nKey="logbook.replay.clock" values={times} components={{ small: <small /> }} />
      </output>
      {every > 1 && (
        <small className="log-quiet" data-testid="thinned">
          {t('logbook.replay.thinned', { count: every })}
        </small>
      )}
    </section>
  );
}

/** How far the replay is computed, under the line of time. */
const ComputedBar = ({ share }: { readonly share: number }) => (
  <svg className="log-computed" viewBox="0 0 100 1" preserveAspectRatio="none" aria-hidden="true">
    <rect width={100 * Math.min(1, share)} height="1" fill="currentColor" />
  </svg>
);

function EventMarks({ events, of }: { readonly events: readonly WorldEvent[]; readonly of: number }) {
  return (
    <svg className="log-marks" viewBox="0 0 1000 12" preserveAspectRatio="none" aria-hidden="true">
      {marksOf(events).map(({ event, weight }) => (
        <line
          key={`${event.step}-${event.kind}`}
          className={`log-mark-${weight}`}
          x1={(1000 * event.step) / Math.max(1, of)}
          x2={(1000 * event.step) / Math.max(1, of)}
          y1={weight === 'heavy' ? 0 : 5}
          y2={12}
          vectorEffect="non-scaling-stroke"
        />
      ))}
    </svg>
  );
}
