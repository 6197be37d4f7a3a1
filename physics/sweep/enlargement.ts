/** How much a finished round opening is larger than the line it was cut along, by the whole model: cut at once, let go, measured. */
import { cos, sin } from '../core/elementary/circular.ts';
import { stretchAtTension } from '../eye/tension.ts';
import { measureOpening } from '../opening/measure-opening.ts';
import { openingOutline } from '../world/opening-outline.ts';
import { remesh } from '../world/rebuild.ts';
import { createWorld, settle } from '../world/world.ts';
import { type SampleOptions, sampleScenario, usualLine_mm } from './sample-eye.ts';

/** Chords of the cut circle: 0.12 mm at the usual sizes. */
const CHORDS = 96;

export interface Enlargement {
  /** Diameter of the relaxed opening over that of the line in the tense capsule. */
  readonly enlargement: number;
  readonly lineDiameter_mm: number;
  readonly openingDiameter_mm: number;
}

/** @param lineDiameter_mm line as drawn in the tense uncut capsule; the usual one of the age when left out @throws Error when the cut leaves no hole */
export function enlargementOf(
  age_years: number,
  netPressure_mmHg: number,
  options: SampleOptions,
  lineDiameter_mm = usualLine_mm(age_years),
): Enlargement {
  const world = createWorld(
    sampleScenario(age_years, netPressure_mmHg, { kind: 'needle', slitLimit_mm: 0.4 }, options),
  );
  const radius = lineDiameter_mm / 2 / stretchAtTension(world.chamber.tension_mN_per_mm, world.frame.eye);
  // a polygon of the circle's own area
  const corner = radius * Math.sqrt((2 * Math.PI) / CHORDS / sin((2 * Math.PI) / CHORDS));
  const points: number[] = [];
  for (let k = 0; k < CHORDS; k++)
    points.push(corner * cos((2 * Math.PI * k) / CHORDS), corner * sin((2 * Math.PI * k) / CHORDS));
  points.push(points[0], points[1]);
  world.tears = [{ id: 0, points, startKind: 'joined', endKind: 'joined' }];
  remesh(world, []);
  settle(world);
  const outline = openingOutline(world);
  const measured = outline
    ? measureOpening(outline, {
        targetCentre_mm: [0, 0],
        targetDiameter_mm: lineDiameter_mm,
        opticCentre_mm: [0, 0],
        opticDiameter_mm: 6,
      })
    : null;
  if (!measured?.ok) throw new Error('the cut circle left no opening that can be measured');
  const openingDiameter_mm = measured.value.equivalentDiameter_mm;
  return { enlargement: openingDiameter_mm / lineDiameter_mm, lineDiameter_mm, openingDiameter_mm };
}
