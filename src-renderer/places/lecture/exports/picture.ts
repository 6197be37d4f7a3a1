import { STEP_S } from '../../../../physics/index.ts';
import { type ChartColours, chartColours } from '../../../charts/chart-colours.ts';
import { chartSvg } from '../../../charts/chart-svg.ts';
import { t } from '../../../i18n/text.ts';
import { quantity } from '../../../ui/format.ts';
import { SIDES } from '../contract.ts';
import { usePlotChoice } from '../plots/plot-choice.ts';
import { headsOf, plotSpec } from '../plots/plot-model.ts';
import { eyesOf } from '../plots/slow-twin.ts';
import { fullTension_mN_per_mm } from '../twin/lecture-look.ts';
import { useLectureLook, useTwin } from '../twin/twin-store.ts';
import { drawOver } from './drawn-over.ts';
import { StillStage } from './still-stage.ts';

/** Drawn pixels per CSS pixel. */
export const FINENESS = 2;
/** CSS pixels: above the eyes for their names, below everything for the caution, height of a row of plots. */
const NAMES_px = 34;
const FOOT_px = 30;
const PLOTS_px = 190;
const GAP_px = 8;

type Pen = CanvasRenderingContext2D;

/** Where everything of the view lies, CSS pixels. */
interface Layout {
  readonly width_px: number;
  readonly height_px: number;
  readonly eyeWidth_px: number;
  readonly eyeHeight_px: number;
  readonly plotWidth_px: number;
}

/** The eyes as large as on the page, the plots that are shown in a row below them. */
function layoutNow(eyes: number, plots: number): Layout {
  const box = document.querySelector('.twin-stage')?.getBoundingClientRect();
  const eyeWidth_px = Math.round(box?.width || 480);
  const eyeHeight_px = Math.round(box?.height || 420);
  const width_px = eyes * eyeWidth_px + (eyes - 1) * GAP_px;
  return {
    width_px,
    height_px: NAMES_px + eyeHeight_px + (plots > 0 ? PLOTS_px + GAP_px : 0) + FOOT_px,
    eyeWidth_px,
    eyeHeight_px,
    plotWidth_px: plots === 0 ? 0 : Math.floor((width_px - (plots - 1) * GAP_px) / plots),
  };
}

/** The view as a picture of twice the size on the page: both eyes with what is drawn over them, the plots, the caution. */
export async function viewPicture(): Promise<Uint8Array> {
  const state = useTwin.getState();
  const sides = SIDES.filter((side) => state[side] !== null);
  const { shown } = usePlotChoice.getState();
  const layout = layoutNow(sides.length, shown.length);
  const canvas = document.createElement('canvas');
  canvas.width = FINENESS * layout.width_px;
  canvas.height = FINENESS * layout.height_px;
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error(t('lecture.save.noCanvas'));
  const colours = chartColours(document.documentElement);
  pen.fillStyle = getComputedStyle(document.body).backgroundColor;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  for (const [at, side] of sides.entries()) drawEye(pen, side, at * (layout.eyeWidth_px + GAP_px), layout, colours);
  for (const [at, id] of shown.entries()) {
    const eyes = eyesOf(state);
    const look = { width_px: layout.plotWidth_px, height_px: PLOTS_px, colours, fontSize_px: 12 };
    const svg = chartSvg(plotSpec(id, eyes), headsOf(id, eyes, state.step), '', look);
    const x = at * (layout.plotWidth_px + GAP_px);
    await drawSvg(pen, svg, x, NAMES_px + layout.eyeHeight_px + GAP_px, layout.plotWidth_px, PLOTS_px);
  }
  const { tensionMap } = useLectureLook.getState().aids;
  const said = { time: quantity(state.step * STEP_S, 2, 's'), caution: t('common.caution') };
  const full = quantity(fullTension_mN_per_mm(), 2, 'mN/mm');
  const foot = tensionMap
    ? t('lecture.save.footTension', { ...said, tension: t('lecture.save.tension', { full }) })
    : t('lecture.save.foot', said);
  words(pen, foot, layout.width_px / 2, layout.height_px - FOOT_px / 2, 13, colours.ink);
  return pngOf(canvas);
}

function drawEye(pen: Pen, side: 'left' | 'right', x_px: number, layout: Layout, colours: ChartColours): void {
  const eye = useTwin.getState()[side];
  if (eye?.view == null) throw new Error(t('lecture.save.noEyeDrawn'));
  words(pen, eye.label, x_px + layout.eyeWidth_px / 2, NAMES_px / 2, 19, colours.ink);
  const stage = new StillStage(side, eye, layout.eyeWidth_px, layout.eyeHeight_px, FINENESS);
  try {
    const [x, y] = [FINENESS * x_px, FINENESS * NAMES_px];
    stage.drawTo(pen, eye.view, x, y);
    drawOver(pen, side, { x, y, above: y, frame: stage.frame, fineness: FINENESS });
  } finally {
    stage.dispose();
  }
}

function words(pen: Pen, text: string, x_px: number, y_px: number, size_px: number, colour: string): void {
  pen.fillStyle = colour;
  pen.font = `600 ${FINENESS * size_px}px system-ui, sans-serif`;
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.fillText(text, FINENESS * x_px, FINENESS * y_px);
}

/** Draws a vector drawing into a picture, at the picture's own fineness. */
async function drawSvg(pen: Pen, svg: string, x_px: number, y_px: number, width_px: number, height_px: number) {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    pen.drawImage(image, FINENESS * x_px, FINENESS * y_px, FINENESS * width_px, FINENESS * height_px);
  } finally {
    URL.revokeObjectURL(address);
  }
}

async function pngOf(canvas: HTMLCanvasElement): Promise<Uint8Array> {
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error(t('lecture.save.noPicture'));
  return new Uint8Array(await blob.arrayBuffer());
}
