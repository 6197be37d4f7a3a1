import type { WorldView } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import type { StageFrame } from '../../../stage/microscope.ts';
import { Stage } from '../../../stage/stage.ts';
import type { SideId, TwinSideState } from '../contract.ts';
import { lectureLook } from '../twin/lecture-look.ts';

/** Later than any blend between two moments takes, ms. */
const AFTER_ms = 2000;

/**
 * A stage off the page that draws single moments of an eye at any size and fineness, as the stage on the page looks now.
 * Its canvas holds the picture only until the page is drawn next: it is copied at once.
 */
export class StillStage {
  readonly canvas = document.createElement('canvas');
  readonly #stage: Stage;
  #now_ms = 0;

  /** @param fineness drawn pixels per CSS pixel @throws Error where nothing can be drawn */
  constructor(side: SideId, eye: TwinSideState, width_px: number, height_px: number, fineness: number) {
    const look = lectureLook(side);
    if (eye.geometry === null || look === null) throw new Error(t('lecture.save.noEyeDrawn'));
    this.#stage = new Stage(this.canvas, eye.geometry, eye.scenario, look);
    this.#stage.setLook(look);
    this.#stage.resize(width_px, height_px, fineness, fineness);
  }

  get frame(): StageFrame {
    return this.#stage.frame;
  }

  /** Draws a moment and copies it to a place of a picture, pixels of that picture. */
  drawTo(pen: CanvasRenderingContext2D, view: WorldView, x: number, y: number): void {
    // two moments that come far apart are not blended
    this.#now_ms += 2 * AFTER_ms;
    this.#stage.receive(view, this.#now_ms);
    this.#stage.draw(this.#now_ms + AFTER_ms);
    pen.drawImage(this.#stage.still, x, y);
    pen.drawImage(this.canvas, x, y);
  }

  dispose(): void {
    this.#stage.dispose();
  }
}
