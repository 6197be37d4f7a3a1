import type { StageFrame } from '../../../stage/microscope.ts';
import type { SideId } from '../contract.ts';
import { outlineOf } from '../twin/drawn-shapes.ts';
import { useRoom } from '../twin/room-store.ts';
import { mountOf } from '../twin/twin-drawing.ts';

/** As the drawing looks on the page, `.twin-drawn`. */
const FILL = '#ff7ad9';
const EDGE = 'rgb(10 13 18 / 75%)';
const EDGE_px = 1.5;

/** Where an eye stands in a picture, pixels of the picture. */
export interface EyePlace {
  readonly x: number;
  readonly y: number;
  /** Height above the eye in which its name stands; drawings may reach into it. */
  readonly above: number;
  readonly frame: StageFrame;
  /** Pixels of the picture per pixel of the frame. */
  readonly fineness: number;
}

/**
 * Draws what the teacher has drawn over an eye over its picture too: on the same place of the eye, at the eye's scale, and
 * not beyond the eye's own part of the picture. Nothing where the eye is not on the page.
 */
export function drawOver(pen: CanvasRenderingContext2D, side: SideId, place: EyePlace): void {
  const { shapes } = useRoom.getState();
  const onPage = mountOf(side)?.stage?.frame;
  const box = document.querySelector(`[data-testid="twin-${side}"]`)?.getBoundingClientRect();
  const overlay = document.querySelector('.twin-drawing')?.getBoundingClientRect();
  if (shapes.length === 0 || onPage === undefined || box === undefined || overlay === undefined) return;
  const { frame, fineness, x, y, above } = place;
  pen.save();
  pen.beginPath();
  pen.rect(x, y - above, frame.width_px * fineness, frame.height_px * fineness + above);
  pen.clip();
  pen.translate(x + frame.centre_px[0] * fineness, y + frame.centre_px[1] * fineness);
  const scale = (frame.pxPerMm / onPage.pxPerMm) * fineness;
  pen.scale(scale, scale);
  pen.translate(overlay.left - box.left - onPage.centre_px[0], overlay.top - box.top - onPage.centre_px[1]);
  pen.fillStyle = FILL;
  pen.strokeStyle = EDGE;
  pen.lineWidth = EDGE_px;
  for (const shape of shapes) {
    const outline = new Path2D(outlineOf(shape, { width_px: overlay.width, height_px: overlay.height }));
    pen.fill(outline);
    pen.stroke(outline);
  }
  pen.restore();
}
