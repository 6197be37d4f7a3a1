import { useEffect, useRef, useState } from 'react';
import type { Scenario, StageGeometry } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { steppedMagnification, toPx } from '../../../stage/microscope.ts';
import type { StageLook } from '../../../stage/stage.ts';
import { useView, type ViewState } from '../../../stores/view-store.ts';
import { number } from '../../../ui/format.ts';
import { StageMount, type StageTrouble } from '../../bench/stage-mount.ts';
import type { ReplayPlayer } from './replay-player.ts';

const PROJECTOR_WEIGHT = 1.5;

/** A replay shows every aid, whatever the scenario or the person turned off while working. */
const lookOf = ({ magnification, theme }: ViewState): StageLook => ({
  magnification,
  aids: { arrows: { pull: true, sheet: true, resultant: true }, targetCircle: true },
  weight: theme === 'projector' ? PROJECTOR_WEIGHT : 1,
});

const TROUBLE_WORDS = { 'no-webgl': 'noWebgl', lost: 'lost' } as const satisfies Readonly<
  Record<Exclude<StageTrouble, null>, string>
>;

/** Writes down what is on the stage, for those who read it by machine. */
function mark(place: HTMLElement, player: ReplayPlayer, mount: StageMount | null): void {
  const { view } = player.store.getState();
  if (view === null) return;
  place.dataset.step = String(view.step);
  place.dataset.phase = view.phase;
  const tip = view.tips.find(({ live }) => live);
  const frame = mount?.stage?.frame;
  place.dataset.tipPx = tip === undefined || frame === undefined ? '' : toPx(frame, tip.position_mm).join();
}

/** The stage of the bench, without a hand. */
export function ReplayStage({
  player,
  scenario,
  geometry,
}: {
  readonly player: ReplayPlayer;
  readonly scenario: Scenario;
  readonly geometry: StageGeometry;
}) {
  const place = useRef<HTMLDivElement>(null);
  const [trouble, setTrouble] = useState<StageTrouble>(null);
  useEffect(() => {
    const element = place.current;
    if (element === null) return;
    const mount = new StageMount(element, { geometry, scenario }, lookOf(useView.getState()), (stage, problem) => {
      player.show(stage);
      setTrouble(problem);
    });
    let frame = requestAnimationFrame(function draw(now_ms) {
      player.frame(now_ms);
      mount.stage?.draw(now_ms);
      mark(element, player, mount);
      frame = requestAnimationFrame(draw);
    });
    const sizes = new ResizeObserver(() => mount.fit());
    sizes.observe(element);
    const unlook = useView.subscribe((state) => mount.setLook(lookOf(state)));
    return () => {
      cancelAnimationFrame(frame);
      sizes.disconnect();
      unlook();
      player.show(null);
      mount.close();
    };
  }, [player, scenario, geometry]);
  return (
    <section className="log-stage-frame" aria-label={t('logbook.replay.stage')}>
      <div
        ref={place}
        className="log-stage"
        data-testid="replay-stage"
        role="img"
        aria-label={t('logbook.replay.fromAbove')}
      >
        {trouble !== null && (
          <p className="log-stage-trouble" role="alert">
            {t(`logbook.replay.${TROUBLE_WORDS[trouble]}`)}
          </p>
        )}
      </div>
      <Magnifier />
    </section>
  );
}

function Magnifier() {
  const magnification = useView((state) => state.magnification);
  const setMagnification = useView((state) => state.setMagnification);
  const step = (way: 1 | -1) => setMagnification(steppedMagnification(magnification, way));
  return (
    <div className="log-magnifier" role="toolbar" aria-label={t('logbook.replay.microscope')}>
      <button type="button" onClick={() => step(-1)} aria-label={t('logbook.replay.magnifyLess')}>
        −
      </button>
      <span>×{number(magnification, 2)}</span>
      <button type="button" onClick={() => step(1)} aria-label={t('logbook.replay.magnifyMore')}>
        +
      </button>
    </div>
  );
}
