import { CanvasTexture, Group, LinearFilter, Mesh, MeshBasicMaterial, PlaneGeometry } from 'three';
import { LAYER } from './layers.ts';

const SIDE_px = 96;

function letterTexture(text: string, colour: string): CanvasTexture {
  const canvas = document.createElement('canvas');
  canvas.width = 2 * SIDE_px;
  canvas.height = SIDE_px;
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('this browser cannot paint on a canvas');
  pen.font = `600 ${0.62 * SIDE_px}px system-ui, sans-serif`;
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  pen.lineJoin = 'round';
  pen.lineWidth = 12;
  pen.strokeStyle = 'rgba(8,10,14,0.85)';
  pen.strokeText(text, SIDE_px, SIDE_px / 2);
  pen.fillStyle = colour;
  pen.fillText(text, SIDE_px, SIDE_px / 2);
  const texture = new CanvasTexture(canvas);
  texture.minFilter = LinearFilter;
  texture.generateMipmaps = false;
  return texture;
}

/** Short texts on the stage that keep their size on the screen. Each text is painted once and then only moved. */
export class Letters {
  readonly group = new Group();
  readonly #plane = new PlaneGeometry(2, 1);
  readonly #known = new Map<string, Mesh<PlaneGeometry, MeshBasicMaterial>>();

  /** Hides all; texts put down afterwards show again. */
  begin(): void {
    for (const mesh of this.#known.values()) mesh.visible = false;
  }

  /** Puts a text with its middle at a place of the eye frame, `height` mm tall. The key keeps equal texts apart. */
  put(key: string, text: string, colour: string, x: number, y: number, height: number): void {
    const name = `${key}|${text}|${colour}`;
    let mesh = this.#known.get(name);
    if (mesh === undefined) {
      const material = new MeshBasicMaterial({
        map: letterTexture(text, colour),
        transparent: true,
        depthTest: false,
        depthWrite: false,
      });
      mesh = new Mesh(this.#plane, material);
      mesh.renderOrder = LAYER.letters;
      mesh.frustumCulled = false;
      this.#known.set(name, mesh);
      this.group.add(mesh);
    }
    mesh.visible = true;
    mesh.position.set(x, y, 0);
    mesh.scale.set(height, height, 1);
  }

  dispose(): void {
    this.#plane.dispose();
    for (const mesh of this.#known.values()) {
      mesh.material.map?.dispose();
      mesh.material.dispose();
    }
  }
}
