import type { Scenario, StageGeometry } from '../../../physics/index.ts';
import { Stage, type StageLook } from '../../stage/stage.ts';

/** How long after a lost drawing context the stage is built again, ms. */
const REBUILD_AFTER_ms = 600;

export type StageTrouble = 'no-webgl' | 'lost' | null;

/** Keeps a stage alive in an element: builds it on a canvas of its own, and again when the browser takes the context. */
export class StageMount {
  stage: Stage | null = null;
  readonly #place: HTMLElement;
  readonly #geometry: StageGeometry;
  readonly #scenario: Scenario;
  readonly #changed: (stage: Stage | null, trouble: StageTrouble) => void;
  #look: StageLook;
  #canvas: HTMLCanvasElement | null = null;
  #timer: number | undefined;
  #scale = 0;

  constructor(
    place: HTMLElement,
    eye: { readonly geometry: StageGeometry; readonly scenario: Scenario },
    look: StageLook,
    changed: (stage: Stage | null, trouble: StageTrouble) => void,
  ) {
    this.#place = place;
    this.#geometry = eye.geometry;
    this.#scenario = eye.scenario;
    this.#look = look;
    this.#changed = changed;
    this.#build();
  }

  setLook(look: StageLook): void {
    this.#look = look;
    this.stage?.setLook(look);
  }

  fit(): void {
    const { clientWidth, clientHeight } = this.#place;
    this.#scale = window.devicePixelRatio;
    if (clientWidth <= 0 || clientHeight <= 0) return;
    this.stage?.resize(clientWidth, clientHeight, this.#scale);
    // a canvas of a new size is empty: without this the eye is gone until the next frame
    this.stage?.draw(performance.now());
  }

  /** A window that goes to another monitor, or whose system's scale is changed, may keep its size in the page's terms. */
  followScale(): void {
    if (window.devicePixelRatio !== this.#scale) this.fit();
  }

  close(): void {
    window.clearTimeout(this.#timer);
    this.#drop();
  }

  #build(): void {
    const canvas = document.createElement('canvas');
    canvas.className = 'stage-moves';
    canvas.addEventListener('webglcontextlost', this.#lost);
    this.#place.prepend(canvas);
    this.#canvas = canvas;
    try {
      this.stage = new Stage(canvas, this.#geometry, this.#scenario, this.#look);
    } catch {
      this.#drop();
      this.#changed(null, 'no-webgl');
      return;
    }
    this.stage.still.className = 'stage-still';
    canvas.before(this.stage.still);
    this.fit();
    this.#changed(this.stage, null);
  }

  readonly #lost = (): void => {
    this.#drop();
    this.#changed(null, 'lost');
    this.#timer = window.setTimeout(() => this.#build(), REBUILD_AFTER_ms);
  };

  #drop(): void {
    this.#canvas?.removeEventListener('webglcontextlost', this.#lost);
    this.stage?.dispose();
    this.stage?.still.remove();
    this.#canvas?.remove();
    this.stage = null;
    this.#canvas = null;
  }
}
