import { METRIC_LABELS, type MetricKey } from '../../../physics/index.ts';
import { MESSAGES } from '../../i18n/languages.ts';
import type { NumberId } from '../../ui/Explained.tsx';

export type NumberGroup = 'groupNow' | 'groupEye' | 'groupOpening' | 'groupWork' | 'groupMore';

const NOW: readonly NumberId[] = [
  'drivingRatio',
  'drivingForce',
  'heading',
  'headingError',
  'sheetAlone',
  'sheetForce',
  'pullForce',
  'resultantForce',
  'shear',
  'stretch',
  'modeShares',
  'gripForce',
  'sideLoad',
  'netPressure',
  'runsByItselfAt',
  'fluidLost',
  'tensionNow',
  'tipRadius',
  'tipClock',
  'arcTorn',
  'torn',
  'attemptTime',
  'pace',
];

const EYE: readonly NumberId[] = [
  'age',
  'thickness_um',
  'youngModulus_MPa',
  'stiffening',
  'ruptureStrain',
  'ruptureStress_MPa',
  'tearResistance_mN',
  'baseTension_mN_per_mm',
  'zonuleFreeDiameter_mm',
  'zonuleStiffness_mN_per_mm2',
  'lensDiameter_mm',
  'anteriorRadius_mm',
  'limbusDiameter_mm',
  'pupilDiameter_mm',
  'incisionWidth',
  'behindPressure',
  'insidePressure',
  'chamberPressure',
  'viscosity',
  'leakTime',
  'uncutTension',
  'uncutStretch',
];

const metrics = (of: 'opening' | 'work'): readonly MetricKey[] =>
  (Object.keys(METRIC_LABELS) as MetricKey[]).filter((key) => METRIC_LABELS[key].of === of);

/** Every number that has an explanation, once each, in reading order; what no group claims stands in the last. */
export function numberGroups(): readonly (readonly [NumberGroup, readonly NumberId[]])[] {
  const groups: readonly (readonly [NumberGroup, readonly NumberId[]])[] = [
    ['groupNow', NOW],
    ['groupEye', EYE],
    ['groupOpening', [...metrics('opening'), 'opticUncovered_clock_h']],
    ['groupWork', metrics('work')],
  ];
  const claimed = new Set(groups.flatMap(([, ids]) => ids));
  const rest = (Object.keys(MESSAGES.en.numbers) as NumberId[]).filter((id) => !claimed.has(id));
  return [...groups, ['groupMore', rest]];
}
