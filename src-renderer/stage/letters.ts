import { CanvasTexture, Group, LinearFilter, Mesh, MeshBasicMaterial, PlaneGeometry } from 'three';
import { LAYER } from './layers.ts';

const SIDE_px = 96;

/** The bundled face is for scripts that many systems' own lack. */
const FONT = `600 ${0.62 * SIDE_px}px system-ui, 'Noto Sans Devanagari', sans-serif`;
/** Free space round a text, for its edge. */
const EDGE_px = 16;

interface Painted {
  readonly texture: CanvasTexture;
  /** Width over height. */
  readonly aspect: number;
}

interface Known extends Painted {
  readonly mesh: Mesh<PlaneGeometry, MeshBasicMaterial>;
}

function letterTexture(text: string, colour: string): Painted {
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser cannot paint on a canvas');
  pen.font = FONT;
  const width_px = Math.max(2 * SIDE_px, Math.ceil(pen.measureText(text).width) + 2 * EDGE_px);
  canvas.width = width_px;
  canvas.height = SIDE_px;
  // a new size takes the font away
  pen.font = FONT;
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.lineJoin = 'round';
  pen.lineWidth = 12;
  pen.strokeStyle = 'rgba(8,10,14,0.85)';
  pen.strokeText(text, width_px / 2, SIDE_px / 2);
  pen.fillStyle = colour;
  pen.fillText(text, width_px / 2, SIDE_px / 2);
  const texture = new CanvasTexture(canvas);
  texture.minFilter = LinearFilter;
  texture.generateMipmaps = false;
  return { texture, aspect: width_px / SIDE_px };
}

/** Short texts on the stage that keep their size on the screen. Each text is painted once and then only moved. */
export class Letters {
  readonly group = new Group();
  readonly #plane = new PlaneGeometry(1, 1);
  readonly #known = new Map<string, Known>();
  #disposed = false;

  /** Hides all; texts put down afterwards show again. */
  begin(): void {
    for (const { mesh } of this.#known.values()) mesh.visible = false;
  }

  /** Puts a text with its middle at a place of the eye frame, `height` mm tall. The key keeps equal texts apart. */
  put(key: string, text: string, colour: string, x: number, y: number, height: number): void {
    const name = `${key}|${text}|${colour}`;
    let known = this.#known.get(name);
    if (known === undefined) {
      known = this.#made(letterTexture(text, colour));
      this.#known.set(name, known);
      if (!document.fonts.check(FONT, text)) void this.#paintAgain(name, text, colour);
    }
    known.mesh.visible = true;
    known.mesh.position.set(x, y, 0);
    known.mesh.scale.set(height * known.aspect, height, 1);
  }

  #made({ texture, aspect }: Painted): Known {
    const material = new MeshBasicMaterial({ map: texture, transparent: true, depthTest: false, depthWrite: false });
    const mesh = new Mesh(this.#plane, material);
    mesh.renderOrder = LAYER.letters;
    mesh.frustumCulled = false;
    this.group.add(mesh);
    return { mesh, texture, aspect };
  }

  /** A face of the program's own is fetched at its first use, which is too late for the first painting. */
  async #paintAgain(name: string, text: string, colour: string): Promise<void> {
    // without the face the system's own is as good as it gets
    await document.fonts.load(FONT, text).catch(() => []);
    const known = this.#known.get(name);
    if (known === undefined || this.#disposed) return;
    const { texture, aspect } = letterTexture(text, colour);
    known.texture.dispose();
    known.mesh.material.map = texture;
    this.#known.set(name, { mesh: known.mesh, texture, aspect });
  }

  dispose(): void {
    this.#disposed = true;
    this.#plane.dispose();
    for (const { mesh, texture } of this.#known.values()) {
      texture.dispose();
      mesh.material.dispose();
    }
  }
}
