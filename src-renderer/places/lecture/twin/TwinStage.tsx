import { useEffect, useRef, useState } from 'react';
import { t } from '../../../i18n/text.ts';
import { useView } from '../../../stores/view-store.ts';
import { listenToHands } from '../../bench/stage-hands.ts';
import { StageMount, type StageTrouble } from '../../bench/stage-mount.ts';
import type { SideId } from '../contract.ts';
import { lectureLook } from './lecture-look.ts';
import { magnify } from './magnify.ts';
import { PolarWords } from './PolarWords.tsx';
import { usePolar } from './polar-store.ts';
import { TwinNumbers } from './TwinNumbers.tsx';
import { addMount, mountOf } from './twin-drawing.ts';
import { twinEngine, useLectureLook, useTwin } from './twin-store.ts';
import { useLiveKeys } from './use-live-keys.ts';

const troubleWords = (trouble: Exclude<StageTrouble, null>): string =>
  trouble === 'no-webgl' ? t('lecture.eye.noWebgl') : t('lecture.eye.lost');

/** Calls when the eyes are others, or their first moment is there: then the colours stand for other tensions. */
const followTensions = (look: () => void) =>
  useTwin.subscribe((now, before) => {
    const changed = (id: SideId) =>
      now[id]?.uncutTension_mN_per_mm !== before[id]?.uncutTension_mN_per_mm ||
      now[id]?.scenario !== before[id]?.scenario;
    if (changed('left') || changed('right')) look();
  });

/** One eye of the pair, and the hand on it where the hand is a live one. */
export function TwinStage({ side }: { readonly side: SideId }) {
  const place = useRef<HTMLDivElement>(null);
  const [trouble, setTrouble] = useState<StageTrouble>(null);
  const label = useTwin((state) => state[side]?.label ?? '');
  const fault = useTwin((state) => state[side]?.fault ?? null);
  const live = useTwin((state) => state.setup?.hand.kind === 'live');
  // what is painted of an eye stays as long as the eye does
  const eyeKey = useTwin((state) => {
    const eye = state[side];
    return eye?.geometry == null ? null : JSON.stringify([eye.geometry, eye.scenario.tolerances]);
  });
  useEffect(() => {
    const element = place.current;
    const eye = useTwin.getState()[side];
    const first = lectureLook(side);
    if (element === null || eyeKey === null || eye?.geometry == null || first === null) return;
    const mount = new StageMount(
      element,
      { geometry: eye.geometry, scenario: eye.scenario },
      first,
      (stage, problem) => {
        twinEngine.show(side, stage, element.querySelector<HTMLCanvasElement>('.stage-moves'));
        setTrouble(problem);
      },
    );
    const gone = addMount(side, element, mount);
    const sizes = new ResizeObserver(() => mount.fit());
    sizes.observe(element);
    const look = () => {
      const now = lectureLook(side);
      if (now !== null) mount.setLook(now);
    };
    const unlook = [
      useView.subscribe(look),
      useLectureLook.subscribe(look),
      usePolar.subscribe(look),
      followTensions(look),
    ];
    return () => {
      gone();
      sizes.disconnect();
      for (const stop of unlook) stop();
      twinEngine.show(side, null, null);
      mount.close();
    };
  }, [eyeKey, side]);
  useEffect(() => {
    const element = place.current;
    if (element === null || !live) return;
    return listenToHands(element, { act: (event) => twinEngine.act(event) }, () => mountOf(side), magnify);
  }, [live, side]);
  useLiveKeys(place, live);
  return (
    <section className="twin-eye" aria-label={label}>
      <h2 className="twin-label" data-testid={`label-${side}`}>
        {label}
      </h2>
      <div
        ref={place}
        className="twin-stage"
        data-testid={`twin-${side}`}
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: with a live hand the stage is worked by keyboard too
        tabIndex={0}
        aria-label={t('lecture.eye.name', { label })}
        title={live ? t('lecture.eye.liveKeys') : undefined}
      >
        {trouble !== null && (
          <p className="twin-trouble" role="alert">
            {troubleWords(trouble)}
          </p>
        )}
        <TwinNumbers side={side} />
        {fault !== null && (
          <p className="twin-trouble" role="alert">
            {t('lecture.eye.stopped', { fault })}
          </p>
        )}
      </div>
      <PolarWords side={side} />
    </section>
  );
}
