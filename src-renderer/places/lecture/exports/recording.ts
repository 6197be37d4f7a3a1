import { BufferTarget, CanvasSource, getFirstEncodableVideoCodec, Output, WebMOutputFormat } from 'mediabunny';
import { STEP_S } from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { quantity } from '../../../ui/format.ts';
import type { SideId } from '../contract.ts';
import { SIDES } from '../contract.ts';
import { twinEngine, useTwin } from '../twin/twin-store.ts';
import { drawOver } from './drawn-over.ts';
import { type Span, SpanFrames, secondsOf } from './span.ts';
import { StillStage } from './still-stage.ts';

/** Size of the film, pixels, and where the eyes stand in it. */
const WIDTH_px = 1280;
const HEIGHT_px = 720;
const NAMES_px = 52;
const FOOT_px = 44;
const PICTURES_PER_S = 30;
const BITS_PER_S = 4_000_000;
/** A key picture at least this often, s: one can jump to those. */
const KEY_EVERY_s = 1;

export interface Recording {
  readonly span: Span;
  /** Eye seconds per second of film, 0.1 to 1. */
  readonly speed: number;
}

/**
 * The span as a WebM film, picture by picture: each moment is drawn for itself and has its own time in the film, so that a
 * slow computer takes longer and drops nothing.
 *
 * @param tell share done, 0 to 1
 * @returns the file; null when the signal came
 */
export async function record({ span, speed }: Recording, signal: AbortSignal, tell: (share: number) => void) {
  const codec = await getFirstEncodableVideoCodec(['vp8', 'vp9', 'av1'], { width: WIDTH_px, height: HEIGHT_px });
  if (codec === null) throw new Error(t('lecture.save.noFilms'));
  const canvas = document.createElement('canvas');
  canvas.width = WIDTH_px;
  canvas.height = HEIGHT_px;
  const film = new FilmDrawing(canvas, span);
  const output = new Output({ format: new WebMOutputFormat(), target: new BufferTarget() });
  const source = new CanvasSource(canvas, {
    codec,
    bitrate: BITS_PER_S,
    keyFrameInterval: KEY_EVERY_s,
  });
  output.addVideoTrack(source, { frameRate: PICTURES_PER_S });
  try {
    await output.start();
    const count = Math.max(1, Math.round((secondsOf(span) / speed) * PICTURES_PER_S));
    for (let at = 0; at < count; at++) {
      if (signal.aborted) {
        await output.cancel();
        return null;
      }
      film.draw(span.from + Math.round(((at / PICTURES_PER_S) * speed) / STEP_S));
      await source.add(at / PICTURES_PER_S, 1 / PICTURES_PER_S);
      tell((at + 1) / count);
      // the page stays awake: the person can stop it
      await new Promise((resolve) => setTimeout(resolve));
    }
    await output.finalize();
  } finally {
    film.dispose();
  }
  const { buffer } = output.target;
  if (buffer === null) throw new Error(t('lecture.save.emptyFilm'));
  return new Uint8Array(buffer);
}

/** Both eyes side by side with their names, the time and the caution. */
class FilmDrawing {
  readonly #pen: CanvasRenderingContext2D;
  readonly #stages = new Map<SideId, StillStage>();
  readonly #frames: SpanFrames;
  readonly #labels = new Map<SideId, string>();
  readonly #eyeWidth_px: number;

  constructor(canvas: HTMLCanvasElement, span: Span) {
    const pen = canvas.getContext('2d');
    if (pen === null) throw new Error(t('lecture.save.noCanvas'));
    this.#pen = pen;
    this.#frames = new SpanFrames(twinEngine, span);
    const state = useTwin.getState();
    const sides = SIDES.filter((side) => state[side] !== null);
    this.#eyeWidth_px = Math.floor(WIDTH_px / Math.max(1, sides.length));
    for (const side of sides) {
      const eye = state[side]!;
      this.#labels.set(side, eye.label);
      this.#stages.set(side, new StillStage(side, eye, this.#eyeWidth_px - 8, HEIGHT_px - NAMES_px - FOOT_px, 1));
    }
  }

  draw(step: number): void {
    const pen = this.#pen;
    pen.fillStyle = '#1a1f25';
    pen.fillRect(0, 0, WIDTH_px, HEIGHT_px);
    for (const [at, [side, stage]] of [...this.#stages].entries()) {
      const view = this.#frames.at(side, step);
      const [x, y] = [at * this.#eyeWidth_px + 4, NAMES_px];
      if (view !== null) stage.drawTo(pen, view, x, y);
      this.#words(this.#labels.get(side) ?? '', (at + 0.5) * this.#eyeWidth_px, NAMES_px / 2, 28);
      drawOver(pen, side, { x, y, above: y, frame: stage.frame, fineness: 1 });
    }
    const foot = t('lecture.save.foot', { time: quantity(step * STEP_S, 1, 's'), caution: t('common.caution') });
    this.#words(foot, WIDTH_px / 2, HEIGHT_px - FOOT_px / 2, 20);
  }

  #words(text: string, x: number, y: number, size: number): void {
    const pen = this.#pen;
    pen.fillStyle = '#f0f3f6';
    pen.font = `600 ${size}px system-ui, sans-serif`;
    pen.textAlign = 'center';
    pen.textBaseline = 'middle';
    pen.fillText(text, x, y);
  }

  dispose(): void {
    for (const stage of this.#stages.values()) stage.dispose();
  }
}
