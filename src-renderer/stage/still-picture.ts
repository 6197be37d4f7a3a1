import type { StageGeometry } from '../../physics/index.ts';
import { GROUND, type Picture, paintGlobe, paintLens } from './eye-picture.ts';
import { type StageFrame, toPx } from './microscope.ts';

/**
 * What does not move, on a canvas of its own behind what does: the lens, and before it iris, limbus and the white. It is drawn
 * again only when the stage or its magnification changes. A processor that draws in place of a graphics card pays about five
 * times as much for a pixel looked up in a painted picture as for a pixel of one colour, so none is looked up per picture.
 */
export class StillPicture {
  readonly canvas = document.createElement('canvas');
  readonly #pictures: readonly Picture[];
  #drawn: readonly number[] = [];

  constructor(geometry: StageGeometry) {
    this.#pictures = [paintLens(geometry), paintGlobe(geometry)];
  }

  /** Does nothing where it is drawn so already. @param pixelRatio drawn pixels per CSS pixel */
  draw(frame: StageFrame, pixelRatio: number): void {
    const asked = [frame.width_px, frame.height_px, frame.pxPerMm, pixelRatio];
    if (asked.every((value, i) => value === this.#drawn[i])) return;
    this.#drawn = asked;
    this.canvas.width = Math.max(1, Math.floor(frame.width_px * pixelRatio));
    this.canvas.height = Math.max(1, Math.floor(frame.height_px * pixelRatio));
    const pen = this.canvas.getContext('2d', { alpha: false });
    if (pen === null) throw new Error('this browser cannot paint on a canvas');
    pen.fillStyle = GROUND;
    pen.fillRect(0, 0, this.canvas.width, this.canvas.height);
    pen.imageSmoothingQuality = 'high';
    pen.scale(this.canvas.width / frame.width_px, this.canvas.height / frame.height_px);
    for (const { canvas, middle_mm, reach_mm } of this.#pictures) {
      const [x, y] = toPx(frame, middle_mm);
      const reach_px = reach_mm * frame.pxPerMm;
      pen.drawImage(canvas, x - reach_px, y - reach_px, 2 * reach_px, 2 * reach_px);
    }
  }
}
