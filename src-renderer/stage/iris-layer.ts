import { CustomBlending, Group, OneMinusSrcAlphaFactor, ZeroFactor } from 'three';
import type { StageGeometry } from '../../physics/index.ts';
import { PUPIL_EDGE_mm } from './eye-picture.ts';
import { LAYER } from './layers.ts';
import { UNDER_IRIS_mm } from './sheet-order.ts';
import { type Paint, Strokes } from './strokes.ts';

/** Longest side of a triangle at the pupil's edge, mm: so far may one reach that has a corner within UNDER_IRIS_mm of it. */
export const LONGEST_SIDE_mm = 1;

/** The iris throws a soft shadow on the lens just inside the pupil: share of its width, and how dark. */
const SHADOW_WIDTH_mm = 0.5;
const shade = (alpha: number): Paint => [20 / 255, 4 / 255, 2 / 255, alpha];
const SHADOW = [
  [0, shade(0)],
  [0.7, shade(0.16)],
  [1, shade(0.62)],
] as const;

const NOTHING: Paint = [0, 0, 0, 0];
const WHOLE: Paint = [0, 0, 0, 1];
const PARTS = 128;

/** The iris before the flat capsule: takes away what lies behind it, so that the still picture shows, and throws its shadow. */
export class IrisLayer {
  readonly group = new Group();
  readonly #cover = new Strokes(LAYER.globe);
  readonly #shadow = new Strokes(LAYER.irisShadow);

  constructor({ pupilCentre_mm, pupilDiameter_mm }: StageGeometry) {
    const pupil = pupilDiameter_mm / 2;
    const [from, to] = [pupil + PUPIL_EDGE_mm[0], pupil + PUPIL_EDGE_mm[1]];
    const cover = this.#cover.mesh.material;
    cover.blending = CustomBlending;
    cover.blendSrc = ZeroFactor;
    cover.blendDst = OneMinusSrcAlphaFactor;
    this.#cover.begin();
    ring(this.#cover, pupilCentre_mm, [from, to], [NOTHING, WHOLE]);
    ring(this.#cover, pupilCentre_mm, [to, pupil + UNDER_IRIS_mm + LONGEST_SIDE_mm], [WHOLE, WHOLE]);
    this.#cover.commit();
    this.#shadow.begin();
    const radius = (share: number) => Math.max(0, pupil - SHADOW_WIDTH_mm * (1 - share));
    for (const [i, [share, colour]] of SHADOW.entries()) {
      const next = SHADOW[i + 1];
      if (next) ring(this.#shadow, pupilCentre_mm, [radius(share), radius(next[0])], [colour, next[1]]);
    }
    this.#shadow.commit();
    this.group.add(this.#cover.mesh, this.#shadow.mesh);
  }

  dispose(): void {
    this.#cover.dispose();
    this.#shadow.dispose();
  }
}

/** A ring whose inner and outer edge have a paint each. */
function ring(
  strokes: Strokes,
  [x, y]: readonly [number, number],
  [inner, outer]: readonly [number, number],
  [near, far]: readonly [Paint, Paint],
): void {
  for (let i = 0; i < PARTS; i++) {
    const [a, b] = [(2 * Math.PI * i) / PARTS, (2 * Math.PI * (i + 1)) / PARTS];
    const at = (radius: number, angle: number) => [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    strokes.quad([...at(inner, a), ...at(outer, a), ...at(outer, b), ...at(inner, b)], near, far);
  }
}
