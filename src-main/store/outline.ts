type Outline = readonly (readonly [number, number])[];

/** More corners than this are not seen when openings are drawn over each other. */
const MOST_POINTS = 180;

/** Every n-th point, so that at most 180 are left, evenly from the whole outline. */
export function thinned(outline: Outline): Outline {
  if (outline.length <= MOST_POINTS) return outline;
  return Array.from({ length: MOST_POINTS }, (_, k) => outline[Math.floor((k * outline.length) / MOST_POINTS)]);
}

/** x, y pairs as 64-bit floats, lowest byte first. */
export function packOutline(outline: Outline): Uint8Array {
  const view = new DataView(new ArrayBuffer(16 * outline.length));
  outline.forEach(([x, y], k) => {
    view.setFloat64(16 * k, x, true);
    view.setFloat64(16 * k + 8, y, true);
  });
  return new Uint8Array(view.buffer);
}

/** A tenth of a micrometre: less than is drawn, and half the text on the way to the page. */
const rounded = (value: number): number => Math.round(value * 1e4) / 1e4;

/** Every so many points of it. Null for bytes that hold no outline, or a number that is none. */
export function unpackOutline(bytes: Uint8Array, every = 1): Outline | null {
  if (bytes.length % 16 !== 0) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const outline: [number, number][] = [];
  for (let at = 0; at < bytes.length; at += 16 * every) {
    const point: [number, number] = [rounded(view.getFloat64(at, true)), rounded(view.getFloat64(at + 8, true))];
    if (!Number.isFinite(point[0] + point[1])) return null;
    outline.push(point);
  }
  return outline;
}
