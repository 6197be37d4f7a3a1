/** A short fingerprint of a state, to the bit: FNV-1a over 64 bits of every double. Equal commands give equal digests. */
import type { World } from './state.ts';

const PRIME = 0x01000193;

export function digestWorld(world: World): string {
  let a = 0x811c9dc5;
  let b = 0x9747b28c;
  const word = (value: number) => {
    a = Math.imul(a ^ value, PRIME) >>> 0;
    b = Math.imul(b ^ (value + 0x9e3779b9), PRIME) >>> 0;
  };
  const numbers = (values: ArrayLike<number>) => {
    const bits = new Uint32Array(Float64Array.from(values).buffer);
    for (let k = 0; k < bits.length; k++) word(bits[k]);
  };
  word(world.step);
  numbers(world.x);
  for (const tear of world.tears) numbers(tear.points);
  numbers(world.pose.tip_mm);
  numbers([world.chamber.fill_share, world.chamber.fluidLost_share]);
  return a.toString(16).padStart(8, '0') + b.toString(16).padStart(8, '0');
}
