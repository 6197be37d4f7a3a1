import { useEffect, useRef, useState } from 'react';
import type { StageLook } from '../../stage/stage.ts';
import { useSession } from '../../stores/session-store.ts';
import { useView, type ViewState } from '../../stores/view-store.ts';
import type { BenchSession } from './bench-session.ts';
import { StageButtons } from './StageButtons.tsx';
import { listenToHands } from './stage-hands.ts';
import { stageMarks, stageSentence } from './stage-marks.ts';
import { StageMount, type StageTrouble } from './stage-mount.ts';

const PROJECTOR_WEIGHT = 1.5;

const lookOf = ({ magnification, aids, theme }: ViewState): StageLook => ({
  magnification,
  aids: { arrows: { pull: aids.pull, sheet: aids.sheet, resultant: aids.resultant }, targetCircle: aids.targetCircle },
  weight: theme === 'projector' ? PROJECTOR_WEIGHT : 1,
});

/** Draws a frame and writes down where things are; once per frame of the display. */
function drawFrame(place: HTMLElement, session: BenchSession, mount: StageMount | null, now_ms: number): void {
  session.frame(now_ms);
  const stage = mount?.stage;
  const view = session.view;
  if (stage === null || stage === undefined) return;
  stage.draw(now_ms);
  if (view === null) return;
  const box = place.getBoundingClientRect();
  const centre = useSession.getState().geometry?.target.centre_mm ?? [0, 0];
  Object.assign(place.dataset, stageMarks(view, stage.frame, [box.left, box.top], centre, session.asked_mm));
}

const TROUBLE_WORDS: Readonly<Record<Exclude<StageTrouble, null>, string>> = {
  'no-webgl':
    'The stage cannot be drawn: this computer or browser offers no WebGL 2. Turn on hardware acceleration or update the graphics driver, then start Rimward again. The eye’s card still works.',
  lost: 'The graphics driver took the drawing away. It is being built again; the attempt goes on.',
};

/** The eye from above, with the hand on it. */
export function StageView({ session }: { readonly session: BenchSession }) {
  const place = useRef<HTMLDivElement>(null);
  const mount = useRef<StageMount | null>(null);
  const [trouble, setTrouble] = useState<StageTrouble>(null);
  const geometry = useSession((state) => state.geometry);
  // a new attempt on the same eye keeps the painted eye
  const eyeKey = JSON.stringify(geometry);

  useEffect(() => {
    const { scenario, geometry: eye } = useSession.getState();
    if (place.current === null || eye === null || scenario === null) return;
    const made = new StageMount(
      place.current,
      { geometry: eye, scenario },
      lookOf(useView.getState()),
      (stage, problem) => {
        session.show(stage);
        setTrouble(problem);
      },
    );
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
    const unlook = useView.subscribe((state) => mount.current?.setLook(lookOf(state)));
    const deaf = listenToHands(element, session, () => mount.current);
    return () => {
      cancelAnimationFrame(frame);
      sizes.disconnect();
      unlook();
      deaf();
    };
  }, [session]);

  return (
    <section className="stage-frame" aria-label="Stage">
      <div
        ref={place}
        className="stage"
        data-testid="stage"
        role="application"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the stage is worked by keyboard too
        tabIndex={0}
        aria-describedby="stage-words"
        aria-label="Eye from above"
      >
        {trouble !== null && (
          <p className="stage-trouble" role="alert">
            {TROUBLE_WORDS[trouble]}
          </p>
        )}
      </div>
      <StageWords />
      <StageButtons session={session} />
    </section>
  );
}

/** The stage in words, refreshed every two seconds at the most so that a reader is not flooded. */
function StageWords() {
  const [words, setWords] = useState('');
  useEffect(() => {
    const timer = window.setInterval(() => {
      const { view, scenario } = useSession.getState();
      if (view !== null && scenario !== null) setWords(stageSentence(view, scenario.title));
    }, 2000);
    return () => window.clearInterval(timer);
  }, []);
  return (
    <p id="stage-words" className="for-ears">
      {words}
    </p>
  );
}
