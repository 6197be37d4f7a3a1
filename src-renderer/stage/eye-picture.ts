import type { StageGeometry } from '../../physics/index.ts';
import { scatter } from './hash.ts';

/** Half the width of the painted globe, mm. */
const GLOBE_REACH_mm = 9;
const GLOBE_SIDE_px = 2048;
/** Dark slate round the eye. */
export const GROUND = '#1c2127';
const LENS_SIDE_px = 1024;

/** A painted square about the eye frame's origin or another middle. */
export interface Picture {
  readonly canvas: HTMLCanvasElement;
  readonly middle_mm: readonly [number, number];
  /** Half its width, mm. */
  readonly reach_mm: number;
}

type Pen = CanvasRenderingContext2D;

function blank(
  side_px: number,
  reach_mm: number,
  [x, y]: readonly [number, number],
): { canvas: HTMLCanvasElement; pen: Pen } {
  const canvas = document.createElement('canvas');
  canvas.width = side_px;
  canvas.height = side_px;
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser cannot paint on a canvas');
  const scale = side_px / (2 * reach_mm);
  // the eye frame: mm, y upward
  pen.setTransform(scale, 0, 0, -scale, side_px / 2 - scale * x, side_px / 2 + scale * y);
  return { canvas, pen };
}

function disc(pen: Pen, x: number, y: number, radius: number, fill: string | CanvasGradient): void {
  pen.beginPath();
  pen.arc(x, y, radius, 0, 2 * Math.PI);
  pen.fillStyle = fill;
  pen.fill();
}

function radial(
  pen: Pen,
  x: number,
  y: number,
  from: number,
  to: number,
  stops: readonly (readonly [number, string])[],
) {
  const gradient = pen.createRadialGradient(x, y, Math.max(0, from), x, y, to);
  for (const [at, colour] of stops) gradient.addColorStop(at, colour);
  return gradient;
}

/** The lens under its capsule: red reflex from behind, and the opacity that stands before it. */
export function paintLens(geometry: StageGeometry): Picture {
  const [x, y] = geometry.lensCentre_mm;
  const radius = geometry.lensDiameter_mm / 2;
  const reach_mm = radius + 0.1;
  const { canvas, pen } = blank(LENS_SIDE_px, reach_mm, [x, y]);
  const reflex = radial(pen, x + 0.2, y + 0.25, 0, radius, [
    [0, '#ff9a5c'],
    [0.45, '#ee6a38'],
    [0.75, '#c43f22'],
    [1, '#6e1a12'],
  ]);
  disc(pen, x, y, radius, reflex);
  cortexFibres(pen, x, y, radius);
  if (geometry.opacityDiameter_mm > 0) opacity(pen, x, y, geometry.opacityDiameter_mm / 2);
  return { canvas, middle_mm: [x, y], reach_mm };
}

/** Faint spokes of the lens fibres; they make bare lens read as lens. */
function cortexFibres(pen: Pen, x: number, y: number, radius: number): void {
  for (let i = 0; i < 420; i++) {
    const angle = (2 * Math.PI * (i + scatter(i, 1))) / 420;
    const from = radius * (0.25 + 0.45 * scatter(i, 2));
    const to = radius * (0.72 + 0.28 * scatter(i, 3));
    pen.strokeStyle = scatter(i, 4) > 0.5 ? 'rgba(255,190,140,0.10)' : 'rgba(70,10,0,0.13)';
    pen.lineWidth = 0.012 + 0.03 * scatter(i, 5);
    pen.beginPath();
    pen.moveTo(x + from * Math.cos(angle), y + from * Math.sin(angle));
    pen.lineTo(x + to * Math.cos(angle + 0.02), y + to * Math.sin(angle + 0.02));
    pen.stroke();
  }
}

/** White-grey, denser in the middle, with the layers and spokes of an infant's cataract. */
function opacity(pen: Pen, x: number, y: number, radius: number): void {
  const body = radial(pen, x, y, 0, radius, [
    [0, 'rgba(206,204,196,0.90)'],
    [0.55, 'rgba(186,184,178,0.86)'],
    [0.86, 'rgba(172,168,162,0.78)'],
    [0.96, 'rgba(160,150,144,0.50)'],
    [1, 'rgba(150,130,120,0)'],
  ]);
  disc(pen, x, y, radius, body);
  for (let i = 0; i < 260; i++) {
    const angle = (2 * Math.PI * (i + scatter(i, 11))) / 260;
    const from = radius * (0.08 + 0.5 * scatter(i, 12));
    const to = Math.min(0.97 * radius, from + radius * (0.15 + 0.4 * scatter(i, 13)));
    pen.strokeStyle = scatter(i, 14) > 0.45 ? 'rgba(232,232,226,0.13)' : 'rgba(96,92,92,0.13)';
    pen.lineWidth = 0.015 + 0.05 * scatter(i, 15);
    pen.beginPath();
    pen.moveTo(x + from * Math.cos(angle), y + from * Math.sin(angle));
    pen.lineTo(x + to * Math.cos(angle), y + to * Math.sin(angle));
    pen.stroke();
  }
  for (const share of [0.42, 0.7]) {
    pen.strokeStyle = 'rgba(238,238,232,0.16)';
    pen.lineWidth = 0.1;
    pen.beginPath();
    pen.arc(x, y, share * radius, 0, 2 * Math.PI);
    pen.stroke();
  }
  sutures(pen, x, y, 0.3 * radius);
}

/** The upright Y where the fibres meet. */
function sutures(pen: Pen, x: number, y: number, length: number): void {
  pen.strokeStyle = 'rgba(245,245,240,0.22)';
  pen.lineWidth = 0.07;
  for (const degrees of [90, 210, 330]) {
    const angle = (degrees * Math.PI) / 180;
    pen.beginPath();
    pen.moveTo(x, y);
    pen.lineTo(x + length * Math.cos(angle), y + length * Math.sin(angle));
    pen.stroke();
  }
}

/** The iris thins out over the pupil's edge: from here to here, mm outward of it. Drawn, not measured. */
export const PUPIL_EDGE_mm = [-0.05, 0.03] as const;

/** Everything in front of the lens that does not move: iris with its hole, limbus, the white with vessels, wounds. */
export function paintGlobe(geometry: StageGeometry): Picture {
  const { canvas, pen } = blank(GLOBE_SIDE_px, GLOBE_REACH_mm, [0, 0]);
  const limbus = geometry.limbusDiameter_mm / 2;
  white(pen, limbus);
  iris(pen, geometry, limbus);
  limbusRing(pen, limbus);
  for (const incision of geometry.incisions) wound(pen, incision.position_mm, incision.width_mm);
  pen.globalCompositeOperation = 'destination-out';
  const [px, py] = geometry.pupilCentre_mm;
  const pupil = geometry.pupilDiameter_mm / 2;
  const hole = radial(pen, px, py, pupil + PUPIL_EDGE_mm[0], pupil + PUPIL_EDGE_mm[1], [
    [0, 'rgba(0,0,0,1)'],
    [1, 'rgba(0,0,0,0)'],
  ]);
  disc(pen, px, py, pupil + PUPIL_EDGE_mm[1], hole);
  pen.globalCompositeOperation = 'source-over';
  return { canvas, middle_mm: [0, 0], reach_mm: GLOBE_REACH_mm };
}

function white(pen: Pen, limbus: number): void {
  pen.fillStyle = GROUND;
  pen.fillRect(-GLOBE_REACH_mm, -GLOBE_REACH_mm, 2 * GLOBE_REACH_mm, 2 * GLOBE_REACH_mm);
  const ball = radial(pen, 0, 0, limbus - 0.2, GLOBE_REACH_mm - 0.4, [
    [0, '#cfc5bb'],
    [0.3, '#c9bbb0'],
    [0.62, '#a3958c'],
    [0.86, '#5d5856'],
    [1, GROUND],
  ]);
  disc(pen, 0, 0, GLOBE_REACH_mm - 0.4, ball);
  for (let i = 0; i < 46; i++) vessel(pen, limbus, i);
}

function vessel(pen: Pen, limbus: number, i: number): void {
  let angle = (2 * Math.PI * (i + 0.8 * scatter(i, 21))) / 46;
  let bend = 0;
  let radius = GLOBE_REACH_mm - 0.8 - 0.6 * scatter(i, 22);
  const end = limbus + 0.12 + 0.7 * scatter(i, 23);
  pen.strokeStyle = `rgba(150,40,38,${0.12 + 0.16 * scatter(i, 24)})`;
  pen.lineWidth = 0.02 + 0.045 * scatter(i, 25);
  pen.beginPath();
  pen.moveTo(radius * Math.cos(angle), radius * Math.sin(angle));
  for (let k = 0; radius > end; k++) {
    radius -= 0.1;
    bend = 0.82 * bend + 0.016 * (scatter(97 * i + k, 26) - 0.5);
    angle += bend;
    pen.lineTo(radius * Math.cos(angle), radius * Math.sin(angle));
  }
  pen.stroke();
}

function iris(pen: Pen, geometry: StageGeometry, limbus: number): void {
  const [px, py] = geometry.pupilCentre_mm;
  const pupil = geometry.pupilDiameter_mm / 2;
  const ground = radial(pen, 0, 0, pupil, limbus, [
    [0, '#46525c'],
    [0.25, '#586b78'],
    [0.7, '#48606f'],
    [0.93, '#2c3f4c'],
    [1, '#22313c'],
  ]);
  disc(pen, 0, 0, limbus, ground);
  const fibres = 900;
  for (let i = 0; i < fibres; i++) {
    const angle = (2 * Math.PI * (i + scatter(i, 31))) / fibres;
    const depth = limbus - pupil;
    const from = pupil + depth * 0.55 * scatter(i, 32) ** 2;
    const to = Math.min(limbus - 0.1, from + depth * (0.25 + 0.7 * scatter(i, 33)));
    const light = scatter(i, 34);
    pen.strokeStyle = light > 0.52 ? `rgba(170,196,208,${0.26 * light})` : `rgba(14,24,32,${0.3 * (1 - light)})`;
    pen.lineWidth = 0.014 + 0.035 * scatter(i, 35);
    const bend = 0.05 * (scatter(i, 36) - 0.5);
    pen.beginPath();
    pen.moveTo(px + from * Math.cos(angle), py + from * Math.sin(angle));
    pen.lineTo(to * Math.cos(angle + bend), to * Math.sin(angle + bend));
    pen.stroke();
  }
  crypts(pen, pupil, limbus);
  pupilRuff(pen, px, py, pupil);
}

/** Pits and folds that break the fibres up. */
function crypts(pen: Pen, pupil: number, limbus: number): void {
  for (let i = 0; i < 54; i++) {
    const angle = 2 * Math.PI * scatter(i, 41);
    const radius = pupil + (limbus - pupil) * (0.2 + 0.5 * scatter(i, 42));
    pen.fillStyle = `rgba(16,26,34,${0.14 + 0.18 * scatter(i, 43)})`;
    pen.beginPath();
    pen.ellipse(
      radius * Math.cos(angle),
      radius * Math.sin(angle),
      0.1 + 0.12 * scatter(i, 44),
      0.035 + 0.05 * scatter(i, 45),
      angle,
      0,
      2 * Math.PI,
    );
    pen.fill();
  }
  for (const share of [0.5, 0.68, 0.82]) {
    pen.strokeStyle = 'rgba(20,32,40,0.20)';
    pen.lineWidth = 0.07;
    pen.beginPath();
    pen.arc(0, 0, pupil + share * (limbus - pupil), 0, 2 * Math.PI);
    pen.stroke();
  }
}

function pupilRuff(pen: Pen, x: number, y: number, pupil: number): void {
  for (let i = 0; i < 150; i++) {
    const angle = (2 * Math.PI * i) / 150;
    const radius = pupil + 0.04 + 0.05 * scatter(i, 51);
    disc(pen, x + radius * Math.cos(angle), y + radius * Math.sin(angle), 0.07, 'rgba(28,18,14,0.55)');
  }
}

function limbusRing(pen: Pen, limbus: number): void {
  const ring = radial(pen, 0, 0, limbus - 0.55, limbus + 0.55, [
    [0, 'rgba(40,56,66,0)'],
    [0.42, 'rgba(58,72,80,0.55)'],
    [0.62, 'rgba(132,136,136,0.70)'],
    [1, 'rgba(190,182,174,0)'],
  ]);
  pen.beginPath();
  pen.arc(0, 0, limbus + 0.55, 0, 2 * Math.PI);
  pen.arc(0, 0, limbus - 0.55, 0, 2 * Math.PI, true);
  pen.fillStyle = ring;
  pen.fill();
}

/** A slit along the limbus, its width true to scale, with the lip of the tunnel inside of it. */
function wound(pen: Pen, [x, y]: readonly [number, number], width: number): void {
  const angle = Math.atan2(y, x);
  pen.save();
  pen.translate(x, y);
  pen.rotate(angle);
  pen.fillStyle = 'rgba(226,216,206,0.42)';
  pen.fillRect(-0.75, -width / 2, 0.8, width);
  pen.lineCap = 'round';
  pen.strokeStyle = 'rgba(70,20,18,0.9)';
  pen.lineWidth = 0.1;
  pen.beginPath();
  pen.moveTo(0, -width / 2);
  pen.quadraticCurveTo(0.1, 0, 0, width / 2);
  pen.stroke();
  pen.strokeStyle = 'rgba(240,236,228,0.55)';
  pen.lineWidth = 0.045;
  pen.beginPath();
  pen.moveTo(-0.75, -width / 2);
  pen.lineTo(-0.75, width / 2);
  pen.stroke();
  pen.restore();
}
