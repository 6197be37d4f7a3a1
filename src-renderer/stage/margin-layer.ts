import { Group } from 'three';
import type { WorldView } from '../../physics/index.ts';
import { LAYER } from './layers.ts';
import { paint, Strokes } from './strokes.ts';

const BRIGHT = paint(0xfffdf4, 0.95);
const SHADE = paint(0x140806, 0.42);

/** The torn margins: a fine bright line with a shadow, below the flap where it belongs to the rim's side. */
export class MarginLayer {
  readonly group = new Group();
  readonly #below = new Strokes(LAYER.margin);
  readonly #above = new Strokes(LAYER.flapMargin);

  constructor() {
    this.group.add(this.#below.mesh, this.#above.mesh);
  }

  /**
   * @param positions 3 per node, mm
   * @param isHigh 1 for nodes of lifted or folded tissue
   * @param mmPerPx one screen pixel in mm, for line widths that do not grow with magnification
   */
  draw(view: WorldView, positions: Float32Array, isHigh: Uint8Array, mmPerPx: number): void {
    this.#below.begin();
    this.#above.begin();
    for (const pass of ['shade', 'bright'] as const) {
      const width = (pass === 'shade' ? 3.4 : 1.7) * mmPerPx;
      const shift = pass === 'shade' ? 1.5 * mmPerPx : 0;
      for (const run of view.margins)
        this.#run(run, positions, isHigh, width, shift, pass === 'shade' ? SHADE : BRIGHT);
    }
    this.#below.commit();
    this.#above.commit();
  }

  dispose(): void {
    this.#below.dispose();
    this.#above.dispose();
  }

  #run(
    run: Uint32Array,
    positions: Float32Array,
    isHigh: Uint8Array,
    width: number,
    shift: number,
    colour: ReturnType<typeof paint>,
  ): void {
    for (let i = 0; i + 1 < run.length; i++) {
      const [a, b] = [run[i]!, run[i + 1]!];
      const strokes = isHigh[a] === 1 && isHigh[b] === 1 ? this.#above : this.#below;
      const [ax, ay, bx, by] = [positions[3 * a]!, positions[3 * a + 1]!, positions[3 * b]!, positions[3 * b + 1]!];
      strokes.line(ax + shift, ay - shift, bx + shift, by - shift, width, colour);
    }
  }
}
