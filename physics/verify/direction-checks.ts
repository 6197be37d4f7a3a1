/** Checks of where a tear in a taut sheet turns: B7, on the rule alone and on the intensities that a ring round a tip gives. */
import { cos, sin } from '../core/elementary/circular.ts';
import { directionTurn } from '../tear/direction.ts';
import { hoopKink } from '../tear/hoop-kink.ts';
import { type RingFit, ringFit } from '../tear/ring-fit.ts';
import type { Check, Finding } from './check.ts';
import { angle, relative } from './compare.ts';
import type { DiscSample } from './disc-sample.ts';
import { fieldAt } from './flat-flap-checks.ts';
import { slantedSlitK } from './reference/slits.ts';
import { endTip, lineInDisc, N0, slantedPoints, TIP_EDGE } from './slit-sample.ts';

/** Ring of the fit over the tear's radius or half-length: three elements from the tip, and near enough to be its own. */
const RING: readonly [number, number] = [0.05, 0.25];

/** Fit at the end of a disc's first tear whose forward tangent points along `tangent_deg`. @throws where there is none */
export function ringFitAtEnd(disc: DiscSample, tangent_deg: number): RingFit {
  const { membrane } = disc.body;
  const node = endTip(disc);
  const [x, y] = [membrane.reference_mm[node * 2], membrane.reference_mm[node * 2 + 1]];
  const a = (tangent_deg * Math.PI) / 180;
  const fit = ringFit(membrane, disc.x, { x, y, tx: cos(a), ty: sin(a) }, RING[0], RING[1]);
  if (fit === null) throw new Error('too few triangles in the ring');
  return fit;
}

/** Slant of a slit to the pull and the kink measured from its line, degrees. Erdogan and Sih 1963. */
const TABLE: readonly (readonly [number, number])[] = [
  [80, 18.9],
  [70, 33.3],
  [60, 43.2],
  [50, 50.3],
  [45, 53.1],
  [40, 55.7],
  [30, 60.0],
  [20, 63.8],
];
const PURE_SHEAR_deg = 70.53;

function rule(): readonly Finding[] {
  const finding = (quantity: string, KI: number, KII: number, reference: number): Finding => ({
    quantity,
    computed: hoopKink(KI, KII).turn_deg,
    reference,
    unit: 'deg',
    tolerance: angle(2),
  });
  const slanted = TABLE.map(([slant, kink]) => {
    const K = slantedSlitK(1, 1, slant);
    return finding(`turn of a slit at ${slant} degrees to the pull`, K.KI, K.KII, -kink);
  });
  return [...slanted, finding('turn under pure shear', 0, 1, -PURE_SHEAR_deg)];
}

function ring(): readonly Finding[] {
  return [30, 45, 60].flatMap((slant_deg): Finding[] => {
    const disc = lineInDisc(slantedPoints(slant_deg), 20, TIP_EDGE, N0, 0);
    const fit = ringFitAtEnd(disc, slant_deg);
    const K = slantedSlitK(1, 1, slant_deg);
    const at = `solved slit at ${slant_deg} degrees`;
    const note = `the ring's tensions are met to ${(100 * fit.misfit).toFixed(0)} % by five terms`;
    const intensity = (quantity: string, computed: number, reference: number): Finding => ({
      quantity: `${at}: ${quantity}`,
      computed,
      reference,
      unit: 'N0 sqrt(a)',
      tolerance: relative(0.04),
      note,
    });
    const [, kink] = TABLE.find(([slant]) => slant === slant_deg)!;
    return [
      intensity('KI from the ring', fit.KI / N0, K.KI),
      // this slit is sheared the other way than the rule's sign counts
      intensity('KII from the ring', -fit.KII / N0, K.KII),
      {
        quantity: `${at}: turn by the ring's intensities`,
        computed: hoopKink(fit.KI, fit.KII).turn_deg,
        reference: kink,
        unit: 'deg',
        tolerance: angle(2),
      },
      {
        quantity: `${at}: turn by the blend`,
        computed: (directionTurn('blend', fieldAt(disc, endTip(disc), slant_deg, TIP_EDGE)) * 180) / Math.PI,
        reference: kink,
        unit: 'deg',
        tolerance: angle(2),
      },
    ];
  });
}

export const directionChecks: readonly Check[] = [
  {
    name: 'B7',
    problem: 'the kink by the largest hoop tension, from given intensities and from a solved sheet',
    source: 'Erdogan and Sih 1963; intensities of a slanted slit: textbook',
    first: false,
    quick: true,
    run: () => [...rule(), ...ring()],
  },
];
