import { useState } from 'react';
import { STEP_S, type WorldEvent } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { clockTime } from '../../../ui/format.ts';
import { SLOW_SPEEDS, SpeedSelect } from '../../../ui/SpeedSelect.tsx';
import { marksOf } from '../../logbook/replay/event-marks.ts';
import { twinEngine, useTwin } from './twin-store.ts';

/** Length of the span that is repeated when none has been chosen: what has just been seen, s. */
const SPAN_s = 2;

/** Repeats the last two seconds up to the moment shown, or goes on. */
export function toggleLoop(): void {
  const { loop, step } = useTwin.getState();
  const from = Math.max(0, step - Math.round(SPAN_s / STEP_S));
  twinEngine.setLoop(loop === null && step > from ? { from, to: step } : null);
}

/** One clock for both eyes: play, speed, single steps, repeat, and a line of time to draw along. */
export function TwinTransport() {
  const playing = useTwin((state) => state.playing);
  const speed = useTwin((state) => state.speed);
  const step = useTwin((state) => state.step);
  const lastStep = useTwin((state) => state.lastStep);
  const held = useTwin((state) => state.held);
  return (
    <section className="twin-transport" aria-label={t('lecture.transport.name')}>
      <button
        type="button"
        className="first"
        onClick={() => twinEngine.play(!playing)}
        disabled={held}
        aria-pressed={playing}
        title={t('lecture.transport.playTitle')}
        data-testid="twin-play"
      >
        {playing ? t('lecture.transport.pause') : t('lecture.transport.play')} <kbd>{t('lecture.transport.space')}</kbd>
      </button>
      <button
        type="button"
        onClick={() => twinEngine.nudge(-1)}
        title={t('lecture.transport.backTitle')}
        aria-label={t('lecture.transport.back')}
        data-testid="twin-back"
      >
        ◀ <kbd>←</kbd>
      </button>
      <button
        type="button"
        onClick={() => twinEngine.nudge(1)}
        title={t('lecture.transport.onTitle')}
        aria-label={t('lecture.transport.on')}
        data-testid="twin-on"
      >
        ▶ <kbd>→</kbd>
      </button>
      <SpeedSelect
        label={t('lecture.transport.speed')}
        className="twin-speed"
        speeds={SLOW_SPEEDS}
        value={speed}
        onValue={(one) => twinEngine.setSpeed(one)}
        testid="twin-speed"
      />
      <LoopButtons />
      <Scrubber step={step} lastStep={lastStep} />
      <output className="twin-clock" data-testid="twin-time">
        {clockTime(step * STEP_S)}
      </output>
    </section>
  );
}

function LoopButtons() {
  const loop = useTwin((state) => state.loop);
  const [from, setFrom] = useState<number | null>(null);
  const step = useTwin((state) => state.step);
  const mark = () => {
    if (from === null || step <= from) return setFrom(step);
    twinEngine.setLoop({ from, to: step });
    setFrom(null);
  };
  return (
    <>
      <button
        type="button"
        onClick={toggleLoop}
        aria-pressed={loop !== null}
        title={t('lecture.transport.repeatTitle')}
        data-testid="twin-loop"
      >
        {loop === null ? t('lecture.transport.repeat') : t('lecture.transport.repeating')} <kbd>L</kbd>
      </button>
      <button type="button" onClick={mark} title={t('lecture.transport.spanTitle')} data-testid="twin-span">
        {from === null ? t('lecture.transport.fromHere') : t('lecture.transport.toHere')}
      </button>
    </>
  );
}

function Scrubber({ step, lastStep }: { readonly step: number; readonly lastStep: number }) {
  const left = useTwin((state) => state.left?.events);
  const right = useTwin((state) => state.right?.events);
  const loop = useTwin((state) => state.loop);
  const of = Math.max(1, lastStep);
  return (
    <span className="twin-scrub">
      <svg className="twin-marks" viewBox="0 0 1000 24" preserveAspectRatio="none" aria-hidden="true">
        {loop !== null && (
          <rect
            x={(1000 * loop.from) / of}
            width={(1000 * (loop.to - loop.from)) / of}
            y="0"
            height="24"
            className="twin-span"
          />
        )}
        <Marks events={left ?? []} of={of} from={0} />
        <Marks events={right ?? []} of={of} from={12} />
      </svg>
      <input
        type="range"
        min={0}
        max={of}
        step={1}
        value={step}
        onChange={(event) => twinEngine.seek(Number(event.target.value))}
        aria-label={t('lecture.transport.scrub')}
        aria-valuetext={t('lecture.transport.scrubValue', {
          at: clockTime(step * STEP_S),
          last: clockTime(lastStep * STEP_S),
        })}
        title={t('lecture.transport.scrubTitle')}
        data-testid="twin-scrub"
      />
    </span>
  );
}

/** What happened in one eye; the heavy ones are tall. */
function Marks({
  events,
  of,
  from,
}: {
  readonly events: readonly WorldEvent[];
  readonly of: number;
  readonly from: number;
}) {
  return marksOf(events).map(({ event, weight }) => (
    <line
      key={`${event.step}-${event.kind}`}
      className={`twin-mark-${weight}`}
      x1={(1000 * event.step) / of}
      x2={(1000 * event.step) / of}
      y1={weight === 'heavy' ? from : from + 5}
      y2={from + 12}
      vectorEffect="non-scaling-stroke"
    />
  ));
}
