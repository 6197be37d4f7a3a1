import {
  bad,
  measureOpening,
  type OpeningMetrics,
  ok,
  type Problem,
  type Result,
  type Vec2,
} from '../../../../physics/index.ts';
import { t } from '../../../i18n/text.ts';
import { marginOf, type PhotoMarks } from './photo-marks.ts';

/** What an outline from elsewhere is judged against; text where the person typed no number. */
export interface OutsideTarget {
  readonly target_mm: number | string;
  readonly optic_mm: number | string;
  /** Reference centre in the frame of a file's outline, mm. On a photograph it is a mark. */
  readonly x_mm: number | string;
  readonly y_mm: number | string;
}

export const USUAL_TARGET: OutsideTarget = { target_mm: 5, optic_mm: 6, x_mm: 0, y_mm: 0 };

export interface MeasuredOutside {
  /** About the reference centre, y upward, mm. */
  readonly outline_mm: readonly Vec2[];
  readonly opening: OpeningMetrics;
}

/** Limits of the two diameters, the same as on the command line, and of the centre, mm. */
const LIMITS: Readonly<Record<keyof OutsideTarget, readonly [number, number]>> = {
  target_mm: [1, 12],
  optic_mm: [1, 12],
  x_mm: [-50, 50],
  y_mm: [-50, 50],
};

function targetNumbers(target: OutsideTarget): Result<Readonly<Record<keyof OutsideTarget, number>>> {
  const keys = Object.keys(LIMITS) as (keyof OutsideTarget)[];
  const problems = keys.flatMap((key): Problem[] => {
    const value = target[key];
    const [low, high] = LIMITS[key];
    if (typeof value === 'number' && value >= low && value <= high) return [];
    const found = value === '' ? t('logbook.problem.nothing') : String(value);
    return [
      {
        file: t('logbook.problem.settings'),
        path: t(`logbook.problem.${key}`),
        found,
        allowed: t('logbook.problem.range', { low, high }),
      },
    ];
  });
  if (problems.length > 0) return bad(problems);
  return ok(target as Readonly<Record<keyof OutsideTarget, number>>);
}

function measured(points: readonly Vec2[], target: OutsideTarget, file: string): Result<MeasuredOutside> {
  const numbers = targetNumbers(target);
  if (!numbers.ok) return numbers;
  const { target_mm, optic_mm } = numbers.value;
  const result = measureOpening(points, {
    targetCentre_mm: [0, 0],
    targetDiameter_mm: target_mm,
    opticCentre_mm: [0, 0],
    opticDiameter_mm: optic_mm,
    file,
  });
  return result.ok ? ok({ outline_mm: points, opening: result.value }) : result;
}

/** An outline of a file, in its own frame, about the centre that the person gives. */
export function measureFile(points: readonly Vec2[], target: OutsideTarget, file: string): Result<MeasuredOutside> {
  const numbers = targetNumbers(target);
  if (!numbers.ok) return numbers;
  const { x_mm, y_mm } = numbers.value;
  return measured(
    points.map(([x, y]): Vec2 => [x - x_mm, y - y_mm]),
    target,
    file,
  );
}

/** The margin that was clicked on a photograph. */
export function measurePhoto(marks: PhotoMarks, target: OutsideTarget): Result<MeasuredOutside> {
  const margin = marginOf(marks);
  return margin.ok ? measured(margin.value, { ...target, x_mm: 0, y_mm: 0 }, t('logbook.problem.margin')) : margin;
}

/** The outline as a file that can be read back here and on the command line: x,y in mm about the reference centre. */
export const outlineCsv = (outline_mm: readonly Vec2[]): string =>
  `x_mm,y_mm\n${outline_mm.map(([x, y]) => `${x.toFixed(4)},${y.toFixed(4)}`).join('\n')}\n`;
