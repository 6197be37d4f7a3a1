import type { Vec2 } from '../../../../physics/index.ts';
import { toPx } from '../../../stage/microscope.ts';
import type { StageMount } from '../../bench/stage-mount.ts';
import type { SideId } from '../contract.ts';
import { twinEngine } from './twin-store.ts';

interface Mounted {
  readonly side: SideId;
  readonly place: HTMLElement;
  readonly mount: StageMount;
}

const mounted = new Set<Mounted>();

/** Has an eye drawn from now on. @returns how to stop */
export function addMount(side: SideId, place: HTMLElement, mount: StageMount): () => void {
  const one = { side, place, mount };
  mounted.add(one);
  return () => mounted.delete(one);
}

export const mountOf = (side: SideId): StageMount | null =>
  [...mounted].find((one) => one.side === side)?.mount ?? null;

/** Lets the clock go and draws both eyes, once per frame of the display. @returns how to stop */
export function drawTwins(): () => void {
  let frame = requestAnimationFrame(function draw(now_ms) {
    twinEngine.frame(now_ms);
    for (const one of mounted) drawOne(one, now_ms);
    frame = requestAnimationFrame(draw);
  });
  return () => cancelAnimationFrame(frame);
}

/** Draws an eye and writes down what is on it, for those who read it by machine. */
function drawOne({ side, place, mount }: Mounted, now_ms: number): void {
  const { stage } = mount;
  if (stage === null) return;
  const drawn = stage.draw(now_ms);
  const view = twinEngine.shown(side);
  if (view === null || !drawn) return;
  place.dataset.step = String(twinEngine.shownStep);
  place.dataset.phase = view.phase;
  place.dataset.frames = String(1 + Number(place.dataset.frames ?? 0));
  place.dataset.share = String(stage.drawnShare);
  const onStage = (at_mm: Vec2) =>
    toPx(stage.frame, at_mm)
      .map((at) => at.toFixed(1))
      .join();
  const tip = view.tips.find(({ live }) => live);
  place.dataset.tipPx = tip === undefined ? '' : onStage(tip.position_mm);
  place.dataset.instrumentPx = onStage([view.instrument.tip_mm[0], view.instrument.tip_mm[1]]);
}
