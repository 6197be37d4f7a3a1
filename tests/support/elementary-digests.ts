import { cos, sin, tan } from '../../physics/core/elementary/circular.ts';
import { exp, expm1 } from '../../physics/core/elementary/exponential.ts';
import { hypot } from '../../physics/core/elementary/hypot.ts';
import { acos, asin, atan, atan2 } from '../../physics/core/elementary/inverse-circular.ts';
import { log, log2 } from '../../physics/core/elementary/logarithm.ts';
import { power } from '../../physics/core/elementary/power.ts';
import { wholePower } from '../../physics/core/elementary/whole-power.ts';
import { createRandom, type Random } from '../../physics/core/random.ts';
import type { InstrumentSite } from '../../physics/instrument/contract.ts';
import { createInstrumentRig } from '../../physics/instrument/rig.ts';
import { type HandCommand, STEP_S } from '../../physics/world/contract.ts';

const VALUES = 100_000;

const even = (random: Random, from: number, to: number) => from + (to - from) * random.uniform();
/** Of either sign, its size even in powers of two. Multiplying by two is exact. */
function ofAnySize(random: Random, from: number, to: number): number {
  let value = random.uniform() < 0.5 ? -1 - random.uniform() : 1 + random.uniform();
  const power = Math.floor(even(random, from, to));
  for (let k = 0; k < Math.abs(power); k++) value *= power < 0 ? 0.5 : 2;
  return value;
}

/** Each with arguments as physics has them and, one time in four, of any size. */
const FUNCTIONS: Readonly<Record<string, (random: Random, wild: boolean) => number>> = {
  sin: (r, wild) => sin(wild ? ofAnySize(r, -40, 200) : even(r, -7, 7)),
  cos: (r, wild) => cos(wild ? ofAnySize(r, -40, 200) : even(r, -7, 7)),
  tan: (r, wild) => tan(wild ? ofAnySize(r, -40, 200) : even(r, -7, 7)),
  asin: (r, wild) => asin(wild ? ofAnySize(r, -40, 0) : even(r, -1, 1)),
  acos: (r, wild) => acos(wild ? ofAnySize(r, -40, 0) : even(r, -1, 1)),
  atan: (r, wild) => atan(wild ? ofAnySize(r, -40, 80) : even(r, -4, 4)),
  atan2: (r, wild) =>
    wild ? atan2(ofAnySize(r, -60, 60), ofAnySize(r, -60, 60)) : atan2(even(r, -5, 5), even(r, -5, 5)),
  exp: (r, wild) => exp(wild ? even(r, -750, 712) : even(r, -12, 12)),
  expm1: (r, wild) => expm1(wild ? ofAnySize(r, -60, 10) : even(r, -12, 12)),
  log: (r, wild) => log(wild ? Math.abs(ofAnySize(r, -1000, 1000)) : even(r, 0, 4)),
  log2: (r, wild) => log2(wild ? Math.abs(ofAnySize(r, -1000, 1000)) : even(r, 0, 4)),
  hypot: (r, wild) =>
    wild
      ? hypot(ofAnySize(r, -500, 500), ofAnySize(r, -500, 500), even(r, -1, 1))
      : hypot(even(r, -5, 5), even(r, -5, 5)),
  power: (r, wild) =>
    wild ? power(Math.abs(ofAnySize(r, -30, 30)), even(r, -40, 40)) : power(even(r, 0, 4), even(r, -4, 4)),
  wholePower: (r) => wholePower(even(r, 0.5, 2), Math.floor(even(r, 0, 24))),
};

/** FNV-1a, 32 bits, over the bytes of the values. */
export function digestOf(values: Float64Array): string {
  let digest = 0x811c9dc5;
  for (const byte of new Uint8Array(values.buffer)) digest = Math.imul(digest ^ byte, 0x01000193) >>> 0;
  return digest.toString(16).padStart(8, '0');
}

const SITE: InstrumentSite = {
  limbusDiameter_mm: 11.4,
  pupilDiameter_mm: 7,
  pupilCentre_mm: [0, 0],
  incisions: [{ position_mm: [0, -5.7], width_mm: 2.4 }],
};

/** Poses of a shaft that is pushed at the far wall and along it, so that it meets the blocks of matter-js. */
export function shaftAtWall(): Float64Array {
  const rig = createInstrumentRig(SITE);
  const poses: number[] = [];
  for (let step = 0; step < 600; step++) {
    const x_mm = -4 + step / 75;
    const command: HandCommand = { x_mm, y_mm: 4, lift_mm: 0.5, jaws: 0, instrument: 'forceps', incision: 0 };
    const { tip_mm, shaft_deg, sideLoad_mN } = rig.step(command, [0, 40, 0], STEP_S);
    poses.push(...tip_mm, shaft_deg, sideLoad_mN);
  }
  return Float64Array.from(poses);
}

/** Digest of 100,000 seeded values of each function, and of a shaft's poses. */
export function elementaryDigests(): Record<string, string> {
  const digests: Record<string, string> = { shaftAtWall: digestOf(shaftAtWall()) };
  for (const [name, value] of Object.entries(FUNCTIONS)) {
    const random = createRandom(20_261_201);
    digests[name] = digestOf(Float64Array.from({ length: VALUES }, (_, k) => value(random, k % 4 === 3)));
  }
  return digests;
}

/** As Node 24 gave them first. A function that gives another has changed, and with it what every kept attempt replays to. */
export const ELEMENTARY_DIGESTS: Readonly<Record<string, string>> = {
  shaftAtWall: 'dcb0443b',
  sin: 'a5e5fc25',
  cos: '8cb6a8c6',
  tan: '7048c587',
  asin: 'c1fedd48',
  acos: 'f0abec15',
  atan: '4033a5f9',
  atan2: 'f65b3afa',
  exp: '92db42f0',
  expm1: '3d90f9c1',
  log: 'ced39e0c',
  log2: '7863fb68',
  hypot: '338b52be',
  power: 'f635c415',
  wholePower: '8fa46f98',
};
