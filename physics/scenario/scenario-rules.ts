import type { Problem } from '../core/result.ts';
import { METRIC_LABELS } from '../opening/metric-labels.ts';
import { describeFound, formatPath, type JsonPath, valueAt } from './json-problems.ts';
import type { StiffnessPreset } from './scenario.ts';

/** Diameter of the zonule-free zone, mm, at an age in years (0 to 95). */
export type ZonuleFreeDiameterAt = (age_years: number, preset: StiffnessPreset) => number;

/** Reads numbers that are sound on their own, so that a rule speaks only where the single values do not. */
interface SoundValues {
  number(...path: JsonPath): number | undefined;
  list(...path: JsonPath): readonly unknown[];
}

function soundValues(root: unknown, problems: readonly Problem[]): SoundValues {
  const wrong = new Set(problems.map((problem) => problem.path));
  return {
    number: (...path) => {
      const value = valueAt(root, path);
      return typeof value === 'number' && Number.isFinite(value) && !wrong.has(formatPath(path)) ? value : undefined;
    },
    list: (...path) => {
      const value = valueAt(root, path);
      return Array.isArray(value) && !wrong.has(formatPath(path)) ? value : [];
    },
  };
}

/**
 * Rules of a scenario that join several fields. They run on the raw file beside the schema, so that one look lists
 * everything that is wrong.
 *
 * @param root parsed JSON, sound or not
 * @param known problems already found by the schema
 */
export function scenarioRuleProblems(
  root: unknown,
  known: readonly Problem[],
  file: string,
  zonuleFreeDiameterAt: ZonuleFreeDiameterAt,
): Problem[] {
  const sound = soundValues(root, known);
  return [
    ...zonuleProblems(root, sound, file, zonuleFreeDiameterAt),
    ...startProblems(root, sound, file),
    ...toleranceProblems(sound, file),
  ];
}

/** The line is cut, the flap begun and the opening ends inside the zone that carries no zonules, or not at all. */
function zonuleProblems(root: unknown, sound: SoundValues, file: string, at: ZonuleFreeDiameterAt): Problem[] {
  const age = sound.number('eye', 'age_years');
  const preset = valueAt(root, ['eye', 'stiffnessPreset']) === 'inflation' ? 'inflation' : 'uniaxial';
  const free = sound.number('eye', 'overrides', 'zonuleFreeDiameter_mm') ?? (age === undefined ? age : at(age, preset));
  if (free === undefined) return [];
  const allowed = `below the zonule-free diameter of this eye, ${free.toFixed(2)} mm`;
  const widths: readonly (readonly [JsonPath, number])[] = [
    [['target', 'diameter_mm'], 1],
    [['target', 'lineDiameter_mm'], 1],
    [['start', 'radius_mm'], 2],
    [['start', 'distance_mm'], 1],
  ];
  return widths
    .flatMap(([path, diameters]) => {
      const value = sound.number(...path);
      if (value === undefined || value * diameters < free) return [];
      const what = diameters === 2 ? `twice ${formatPath(path).split('.')[1]} must be ${allowed}` : allowed;
      return [{ file, path: formatPath(path), found: describeFound(value), allowed: what }];
    })
    .concat(outwardProblems(sound, file, free));
}

/** A tear that has begun to run outward has not yet reached the zonules. */
function outwardProblems(sound: SoundValues, file: string, free: number): Problem[] {
  const outward = sound.number('start', 'outward_mm');
  const radius = sound.number('start', 'radius_mm');
  if (outward === undefined || radius === undefined || 2 * radius >= free || 2 * (radius + outward) < free) return [];
  const allowed = `below ${(free / 2 - radius).toFixed(2)}, so that the tear's end lies within the zonule-free zone`;
  return [{ file, path: 'start.outward_mm', found: describeFound(outward), allowed }];
}

function startProblems(root: unknown, sound: SoundValues, file: string): Problem[] {
  if (valueAt(root, ['start', 'kind']) !== 'flap') return [];
  const problems: Problem[] = [];
  const radius = sound.number('start', 'radius_mm');
  const inner = sound.number('start', 'innerRadius_mm');
  if (radius !== undefined && inner !== undefined && inner >= radius) {
    problems.push({
      file,
      path: 'start.innerRadius_mm',
      found: `${inner}`,
      allowed: `below start.radius_mm, ${radius}`,
    });
  }
  const arc = sound.number('start', 'arc_deg');
  if (arc !== undefined && Math.abs(arc) < 5) {
    problems.push({ file, path: 'start.arc_deg', found: `${arc}`, allowed: '5 to 330, or -330 to -5' });
  }
  return problems;
}

function toleranceProblems(sound: SoundValues, file: string): Problem[] {
  const seen = new Set<string>();
  return sound.list('tolerances').flatMap((item, index) => {
    const problems: Problem[] = [];
    const metric = valueAt(item, ['metric']);
    if (typeof metric === 'string' && Object.hasOwn(METRIC_LABELS, metric)) {
      if (seen.has(metric)) {
        problems.push({
          file,
          path: `tolerances[${index}].metric`,
          found: `${metric} again`,
          allowed: 'each metric once',
        });
      }
      seen.add(metric);
    }
    const low = valueAt(item, ['atLeast']);
    const high = valueAt(item, ['atMost']);
    if (typeof item === 'object' && item !== null && low === undefined && high === undefined) {
      problems.push({ file, path: `tolerances[${index}]`, found: 'no limit', allowed: 'atLeast, atMost or both' });
    }
    if (typeof low === 'number' && typeof high === 'number' && low > high) {
      problems.push({
        file,
        path: `tolerances[${index}].atLeast`,
        found: `${low}`,
        allowed: `at most atMost, ${high}`,
      });
    }
    return problems;
  });
}
