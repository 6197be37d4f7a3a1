import { type ReactNode, useEffect, useRef, useState } from 'react';
import { scenarioTitle } from '../../i18n/content.ts';
import { t } from '../../i18n/text.ts';
import type { StageLook } from '../../stage/stage.ts';
import { useSession } from '../../stores/session-store.ts';
import { useView } from '../../stores/view-store.ts';
import type { AttemptSession } from './attempt-session.ts';
import { StageButtons } from './StageButtons.tsx';
import { shownAids } from './shown-aids.ts';
import { listenToHands } from './stage-hands.ts';
import { stageMarks, stageSentence } from './stage-marks.ts';
import { StageMount, type StageTrouble } from './stage-mount.ts';

const PROJECTOR_WEIGHT = 1.5;

const lookOf = (session: AttemptSession): StageLook => {
  const { magnification, aids, theme } = useView.getState();
  const { pull, sheet, resultant, targetCircle } = shownAids(session.store.getState(), aids);
  return {
    magnification,
    aids: { arrows: { pull, sheet, resultant }, targetCircle },
    weight: theme === 'projector' ? PROJECTOR_WEIGHT : 1,
  };
};

/** Draws a frame and writes down where things are; once per frame of the display. */
function drawFrame(place: HTMLElement, session: AttemptSession, mount: StageMount | null, now_ms: number): void {
  session.frame(now_ms);
  mount?.followScale();
  const stage = mount?.stage;
  const view = session.view;
  if (stage === null || stage === undefined) return;
  stage.draw(now_ms);
  if (view === null) return;
  const box = place.getBoundingClientRect();
  const centre = session.store.getState().geometry?.target.centre_mm ?? [0, 0];
  Object.assign(place.dataset, stageMarks(view, stage.frame, [box.left, box.top], centre, session.asked_mm));
}

const troubleWords = (trouble: Exclude<StageTrouble, null>): string =>
  trouble === 'lost' ? t('bench.stage.lost') : t('bench.stage.noWebgl');

/** The eye from above, with the hand on it. */
export function StageView({
  session,
  children,
}: {
  readonly session: AttemptSession;
  /** Laid over the stage. */
  readonly children?: ReactNode;
}) {
  const place = useRef<HTMLDivElement>(null);
  const mount = useRef<StageMount | null>(null);
  const [trouble, setTrouble] = useState<StageTrouble>(null);
  const geometry = useSession((state) => state.geometry);
  // a new attempt on the same eye keeps the painted eye
  const eyeKey = JSON.stringify(geometry);

  useEffect(() => {
    const { scenario, geometry: eye } = session.store.getState();
    if (place.current === null || eye === null || scenario === null) return;
    const made = new StageMount(place.current, { geometry: eye, scenario }, lookOf(session), (stage, problem) => {
      session.show(stage);
      setTrouble(problem);
    });
    mount.current = made;
    return () => {
      mount.current = null;
      session.show(null);
      made.close();
    };
  }, [eyeKey, session]);

  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    let frame = requestAnimationFrame(function draw(now_ms) {
      drawFrame(element, session, mount.current, now_ms);
      frame = requestAnimationFrame(draw);
    });
    const sizes = new ResizeObserver(() => mount.current?.fit());
    sizes.observe(element);
    const look = () => mount.current?.setLook(lookOf(session));
    const unlook = useView.subscribe(look);
    const unlock = session.store.subscribe((now, before) => {
      if (now.scenario !== before.scenario) look();
    });
    const deaf = listenToHands(element, session, () => mount.current);
    return () => {
      cancelAnimationFrame(frame);
      sizes.disconnect();
      unlook();
      unlock();
      deaf();
    };
  }, [session]);

  return (
    <section className="stage-frame" aria-label={t('bench.stage.frame')}>
      <div
        ref={place}
        className="stage"
        data-testid="stage"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the stage is worked by keyboard too
        tabIndex={0}
        aria-describedby="stage-words"
        aria-label={t('bench.stage.label')}
      >
        {trouble !== null && (
          <p className="stage-trouble" role="alert">
            {troubleWords(trouble)}
          </p>
        )}
      </div>
      <StageWords session={session} />
      {children}
      <StageButtons session={session} />
    </section>
  );
}

/** The stage in words, refreshed every two seconds at the most so that a reader is not flooded. */
function StageWords({ session }: { readonly session: AttemptSession }) {
  const [words, setWords] = useState('');
  useEffect(() => {
    const timer = window.setInterval(() => {
      const { view, scenario } = session.store.getState();
      if (view !== null && scenario !== null) setWords(stageSentence(view, scenarioTitle(scenario)));
    }, 2000);
    return () => window.clearInterval(timer);
  }, [session]);
  return (
    <p id="stage-words" className="for-ears">
      {words}
    </p>
  );
}
