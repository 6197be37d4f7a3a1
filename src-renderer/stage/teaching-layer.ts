import { Group } from 'three';
import type { TipView, WorldView } from '../../physics/index.ts';
import { t } from '../i18n/text.ts';
import { tipOnCircle } from '../worker/twin-circle.ts';
import { LAYER } from './layers.ts';
import { Letters } from './letters.ts';
import { principalStrokes } from './principal-strokes.ts';
import { safeCone } from './safe-cone.ts';
import { paint, Strokes } from './strokes.ts';
import type { PolarCurve, TeachingLook } from './teaching-look.ts';

const RAD = Math.PI / 180;
const STROKE = paint(0xffffff, 0.9);
const STROKE_EDGE = paint(0x0a0d12, 0.6);
/** Longest stroke of tension, mm, at the full tension. */
const LONGEST_STROKE_mm = 0.4;
const CONE = paint(0x7fe0d0, 0.24);
const CONE_EDGE = paint(0x7fe0d0, 0.95);
const CONE_CSS = '#9cf0e2';
const WEAK_CSS = '#ffb3a3';
const POLAR = paint(0xf3f0ff, 0.95);
const POLAR_FILL = paint(0xf3f0ff, 0.16);
const GOES = paint(0xf3f0ff, 0.55);
/** Reach of the fan beyond the arrow that equals the tear resistance, as a share of that arrow. */
const CONE_REACH = 1.25;
/** What a teacher turns on over an eye: lines of tension, safe pulls, driving force by direction. */
export class TeachingLayer {
  readonly group = new Group();
  readonly #lines = new Strokes(LAYER.tensionLines);
  readonly #fans = new Strokes(LAYER.cone);
  readonly #letters = new Letters();
  #linesOf: WorldView | null = null;

  constructor() {
    this.group.add(this.#lines.mesh, this.#fans.mesh, this.#letters.group);
  }

  /** Nothing of it is shown. */
  hide(): void {
    this.group.visible = false;
  }

  /**
   * @param isHigh 1 for nodes of lifted or folded tissue
   * @param px one screen pixel in mm times the weight of lines
   */
  draw(view: WorldView, isHigh: Uint8Array, look: TeachingLook, px: number): void {
    this.group.visible = true;
    this.#drawLines(view, isHigh, look, px);
    this.#fans.begin();
    this.#letters.begin();
    for (const tip of view.tips) if (tip.live) this.#drawTip(view, tip, look, px);
    this.#fans.commit();
  }

  dispose(): void {
    this.#lines.dispose();
    this.#fans.dispose();
    this.#letters.dispose();
  }

  #drawLines(view: WorldView, isHigh: Uint8Array, look: TeachingLook, px: number): void {
    this.#lines.mesh.visible = look.principalStrokes;
    if (!look.principalStrokes) {
      this.#linesOf = null;
      return;
    }
    if (view === this.#linesOf) return;
    this.#linesOf = view;
    this.#lines.begin();
    const full = look.tensionFull_mN_per_mm;
    for (const { at_mm, direction, tension_mN_per_mm } of principalStrokes(view, isHigh, full)) {
      const half = (LONGEST_STROKE_mm / 2) * Math.min(1, tension_mN_per_mm / full);
      const [dx, dy] = [half * direction[0], half * direction[1]];
      const line = (width: number, colour: typeof STROKE) =>
        this.#lines.line(at_mm[0] - dx, at_mm[1] - dy, at_mm[0] + dx, at_mm[1] + dy, width * px, colour);
      line(4, STROKE_EDGE);
      line(2, STROKE);
    }
    this.#lines.commit();
  }

  #drawTip(view: WorldView, tip: TipView, look: TeachingLook, px: number): void {
    const resistance = tip.drivingRatio > 0 ? tip.drivingForce_mN / tip.drivingRatio : 0;
    if (!(resistance > 0)) return;
    if (look.safeCone) this.#drawCone(view, tip, look, resistance, px);
    const curve = look.polarCurves.find(({ tipId }) => tipId === tip.id);
    if (curve !== undefined) this.#drawPolar(tip, curve, look.arrowLength_mm, px);
  }

  #drawCone(view: WorldView, tip: TipView, look: TeachingLook, resistance: number, px: number): void {
    const circle = tipOnCircle(view, tip, look.living);
    if (circle === null || tip.sheet_mN === null || tip.pull_mN === null) return;
    const cone = safeCone(tip.sheet_mN, tip.pull_mN, circle, resistance);
    if (cone === null) return;
    const [x, y] = tip.position_mm;
    const reach = CONE_REACH * look.arrowLength_mm;
    const letters = 17 * px;
    if (cone === 'too-weak') {
      const away = circle.outward_deg * RAD;
      const at = reach + letters;
      this.#letters.put(
        `weak${tip.id}`,
        t('bench.stage.weak'),
        WEAK_CSS,
        x + Math.cos(away) * at,
        y + Math.sin(away) * at,
        letters,
      );
      return;
    }
    const [from, to] = [cone.from_deg * RAD, cone.to_deg * RAD];
    this.#fans.arc(x, y, reach / 2, from, to, reach, CONE);
    this.#fans.arc(x, y, reach, from, to, 3 * px, CONE_EDGE);
    for (const edge of [from, to]) {
      this.#fans.line(x, y, x + reach * Math.cos(edge), y + reach * Math.sin(edge), 3 * px, CONE_EDGE);
    }
    const middle = (from + to) / 2;
    const at = 0.72 * reach;
    this.#letters.put(
      `safe${tip.id}`,
      t('bench.stage.safe'),
      CONE_CSS,
      x + Math.cos(middle) * at,
      y + Math.sin(middle) * at,
      letters,
    );
  }

  /** The driving force that each direction has been found to have, and the ring that it must pass for the tear to go. */
  #drawPolar(tip: TipView, curve: PolarCurve, ring_mm: number, px: number): void {
    const [x, y] = tip.position_mm;
    const mmPer_mN = ring_mm / curve.tearResistance_mN;
    const dashes = 24;
    for (let k = 0; k < dashes; k++) {
      const from = (2 * Math.PI * k) / dashes;
      this.#fans.arc(x, y, ring_mm, from, from + Math.PI / dashes, 2 * px, GOES);
    }
    const points = curve.direction_deg.flatMap((direction, k) => {
      const r = Math.max(0, curve.drivingForce_mN[k]!) * mmPer_mN;
      return [x + r * Math.cos(direction * RAD), y + r * Math.sin(direction * RAD)];
    });
    for (let k = 0; k + 3 < points.length; k += 2) {
      this.#fans.triangle(x, y, points[k]!, points[k + 1]!, points[k + 2]!, points[k + 3]!, POLAR_FILL);
    }
    this.#fans.polyline(points, 3 * px, POLAR);
    const best = curve.best.direction_deg * RAD;
    const far = Math.max(0, curve.best.drivingForce_mN) * mmPer_mN;
    const mark = far + 9 * px;
    this.#fans.line(
      x + far * Math.cos(best),
      y + far * Math.sin(best),
      x + mark * Math.cos(best),
      y + mark * Math.sin(best),
      6 * px,
      POLAR,
    );
  }
}
