/** Draws one moment of one eye on a canvas, for the page that replays without the program. */
import {
  BARE,
  FOLDED,
  GRID_SIDE,
  type ReplayEye,
  type ReplayMoment,
  type ReplayTip,
  TENSION_LEVELS,
} from './contract.ts';

export interface EyeAids {
  readonly arrows: boolean;
  readonly tension: boolean;
}

type Pen = CanvasRenderingContext2D;
type Place = readonly [number, number];

/** Length of an arrow for a force as large as the resistance, mm, and the longest, mm. */
const ARROW_mm = 1.1;
const LONGEST_mm = 2.6;

interface ArrowLook {
  readonly letter: string;
  readonly colour: string;
  readonly dash: readonly number[];
}

const ARROWS: Readonly<Record<'pull' | 'sheet' | 'resultant', ArrowLook>> = {
  sheet: { letter: 'S', colour: '#b3a6ff', dash: [4, 4] },
  pull: { letter: 'P', colour: '#ffb52e', dash: [11, 5] },
  resultant: { letter: 'R', colour: '#ffffff', dash: [] },
};

/** Slack to tense: dark to light, so that it reads without colour. */
const tensionColour = (level: number): string => {
  const share = (level - 1) / (TENSION_LEVELS - 1);
  return `rgb(${Math.round(60 + 185 * share)} ${Math.round(42 + 170 * share)} ${Math.round(92 - 10 * share)})`;
};

export class EyeDrawing {
  readonly #canvas: HTMLCanvasElement;
  readonly #eye: ReplayEye;
  readonly #field_mm: number;
  readonly #map = document.createElement('canvas');

  /** @param field_mm what the canvas shows across */
  constructor(canvas: HTMLCanvasElement, eye: ReplayEye, field_mm: number) {
    this.#field_mm = field_mm;
    this.#canvas = canvas;
    this.#eye = eye;
    this.#map.width = GRID_SIDE;
    this.#map.height = GRID_SIDE;
  }

  draw(moment: ReplayMoment, aids: EyeAids): void {
    const pen = this.#canvas.getContext('2d');
    if (pen === null) return;
    const { width, height } = this.#canvas;
    const scale = Math.min(width, height) / this.#field_mm;
    const [x, y] = this.#eye.pupilCentre_mm;
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.fillStyle = '#1c2127';
    pen.fillRect(0, 0, width, height);
    // the eye frame: mm, y upward
    pen.setTransform(scale, 0, 0, -scale, width / 2 - scale * x, height / 2 + scale * y);
    this.#globe(pen);
    this.#sheet(pen, moment, aids.tension);
    this.#lines(pen, moment, 1 / scale);
    this.#hand(pen, moment, 1 / scale);
    if (aids.arrows) for (const tip of moment.tips) drawTip(pen, tip, 1 / scale);
  }

  #globe(pen: Pen): void {
    const eye = this.#eye;
    disc(pen, [0, 0], eye.limbusDiameter_mm / 2 + 0.5, '#cfc8bd');
    disc(pen, [0, 0], eye.limbusDiameter_mm / 2, '#4d5a63');
    disc(pen, eye.pupilCentre_mm, eye.pupilDiameter_mm / 2, '#190a07');
    pen.save();
    clipTo(pen, eye.pupilCentre_mm, eye.pupilDiameter_mm / 2);
    disc(pen, eye.lensCentre_mm, eye.lensDiameter_mm / 2, '#d9572f');
    pen.restore();
  }

  /** The map of the sheet within the pupil, as soft patches: its cells say nothing finer. */
  #sheet(pen: Pen, { sheet }: ReplayMoment, tension: boolean): void {
    const eye = this.#eye;
    const [x, y] = eye.pupilCentre_mm;
    const reach = eye.gridReach_mm;
    const layer = (colourOf: (value: number) => string | null) => {
      const map = this.#map.getContext('2d');
      if (map === null) return;
      map.clearRect(0, 0, GRID_SIDE, GRID_SIDE);
      for (const [at, value] of sheet.entries()) {
        const colour = colourOf(value);
        if (colour === null) continue;
        map.fillStyle = colour;
        map.fillRect(at % GRID_SIDE, Math.floor(at / GRID_SIDE), 1, 1);
      }
      pen.save();
      clipTo(pen, eye.pupilCentre_mm, eye.pupilDiameter_mm / 2);
      pen.translate(x, y);
      pen.scale(1, -1);
      pen.drawImage(this.#map, -reach, -reach, 2 * reach, 2 * reach);
      pen.restore();
    };
    layer((value) =>
      value === BARE ? null : tension && value < FOLDED ? tensionColour(value) : 'rgb(226 214 205 / 30%)',
    );
    layer((value) => (value === FOLDED ? 'rgb(240 244 248 / 62%)' : null));
  }

  #lines(pen: Pen, { margins, tearLines }: ReplayMoment, px: number): void {
    const { targetCentre_mm, lineDiameter_mm } = this.#eye;
    pen.save();
    pen.setLineDash([7 * px, 6 * px]);
    pen.strokeStyle = '#9fe8f5';
    pen.lineWidth = 1.6 * px;
    pen.beginPath();
    pen.arc(targetCentre_mm[0], targetCentre_mm[1], lineDiameter_mm / 2, 0, 2 * Math.PI);
    pen.stroke();
    pen.setLineDash([]);
    for (const run of margins) stroke(pen, run, '#f7f9fb', 2 * px);
    for (const run of tearLines) {
      stroke(pen, run, '#0a0d12', 5 * px);
      stroke(pen, run, '#ffffff', 2.6 * px);
    }
    pen.restore();
  }

  #hand(pen: Pen, { instrument: { x_mm, y_mm, gripping } }: ReplayMoment, px: number): void {
    pen.lineWidth = 2.5 * px;
    pen.strokeStyle = '#0a0d12';
    pen.fillStyle = gripping ? '#c9d4de' : 'rgb(201 212 222 / 35%)';
    pen.beginPath();
    pen.arc(x_mm, y_mm, 6 * px, 0, 2 * Math.PI);
    pen.fill();
    pen.stroke();
  }
}

function disc(pen: Pen, [x, y]: Place, radius: number, fill: string): void {
  pen.beginPath();
  pen.arc(x, y, radius, 0, 2 * Math.PI);
  pen.fillStyle = fill;
  pen.fill();
}

function clipTo(pen: Pen, [x, y]: Place, radius: number): void {
  pen.beginPath();
  pen.arc(x, y, radius, 0, 2 * Math.PI);
  pen.clip();
}

function stroke(pen: Pen, run: readonly number[], colour: string, width: number): void {
  if (run.length < 4) return;
  pen.strokeStyle = colour;
  pen.lineWidth = width;
  pen.lineJoin = 'round';
  pen.beginPath();
  for (let i = 0; i + 1 < run.length; i += 2) pen.lineTo(run[i]!, run[i + 1]!);
  pen.stroke();
}

function drawTip(pen: Pen, tip: ReplayTip, px: number): void {
  for (const name of ['sheet', 'pull', 'resultant'] as const) {
    const force = tip[`${name}_mN`];
    if (force !== null && tip.resistance_mN > 0) drawArrow(pen, tip, force, ARROWS[name], px);
  }
  pen.beginPath();
  pen.arc(tip.x_mm, tip.y_mm, 4.5 * px, 0, 2 * Math.PI);
  pen.lineWidth = 2 * px;
  pen.strokeStyle = '#ffffff';
  pen.stroke();
}

function drawArrow(pen: Pen, tip: ReplayTip, [fx, fy]: Place, look: ArrowLook, px: number): void {
  const force = Math.hypot(fx, fy);
  const length = Math.min(LONGEST_mm, (ARROW_mm * force) / tip.resistance_mN);
  if (!(length > 8 * px)) return;
  const [ux, uy] = [fx / force, fy / force];
  const at = (along: number, across: number): Place => [
    tip.x_mm + ux * along - uy * across,
    tip.y_mm + uy * along + ux * across,
  ];
  const head = 13 * px;
  for (const [colour, wide] of [
    ['#0a0d12', 7],
    [look.colour, 3.5],
  ] as const) {
    pen.save();
    pen.strokeStyle = colour;
    pen.fillStyle = colour;
    pen.lineWidth = wide * px;
    pen.setLineDash(colour === look.colour ? look.dash.map((part) => part * px) : []);
    pen.beginPath();
    pen.moveTo(...at(6 * px, 0));
    pen.lineTo(...at(Math.max(0, length - head), 0));
    pen.stroke();
    pen.beginPath();
    for (const corner of [at(length, 0), at(length - head, 0.42 * head), at(length - head, -0.42 * head)])
      pen.lineTo(...corner);
    pen.closePath();
    pen.fill();
    pen.restore();
  }
  const [lx, ly] = at(length + 13 * px, 0);
  pen.save();
  pen.translate(lx, ly);
  pen.scale(px, -px);
  pen.font = '700 18px system-ui, sans-serif';
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.lineWidth = 4;
  pen.strokeStyle = '#0a0d12';
  pen.strokeText(look.letter, 0, 0);
  pen.fillStyle = look.colour;
  pen.fillText(look.letter, 0, 0);
  pen.restore();
}
