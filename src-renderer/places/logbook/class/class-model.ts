/** A class's attempts in one eye, as a table and as plain data for charts. */
import type { AttemptSummary, ClassGroup, Person } from '../../../../src-main/ipc/contract.ts';
import type { ChartPoint, ChartSpec } from '../../../charts/chart-spec.ts';
import { t } from '../../../i18n/text.ts';
import { whenWords } from '../attempt-columns.ts';
import { csvOf } from '../csv.ts';
import { latestGraded, titleWithLimits } from '../curve/curve-model.ts';
import { metricLabel, metricText, metricValue, unitOf } from '../metric-words.ts';

export interface ClassChoice {
  /** Null for everybody on this machine. */
  readonly classId: string | null;
  readonly scenarioId: string;
  readonly place: AttemptSummary['place'] | null;
}

export interface PersonRow {
  readonly personId: string;
  readonly name: string;
  readonly attempts: number;
  readonly passed: number;
  /** Passed over attempts, 0 to 1; null without attempts. */
  readonly passedShare: number | null;
  /** Passed attempts in a row up to the latest. */
  readonly streak: number;
  readonly lastAt: string | null;
  /** Medians over the attempts in which they were measured; null where there is none. */
  readonly diameter_mm: number | null;
  readonly centreOff_mm: number | null;
  readonly circularity: number | null;
  readonly time_s: number | null;
  /** Attempts whose seal is broken or whose replay gave another opening. */
  readonly doubtful: number;
}

/** Closed attempts of the class in the chosen eye, oldest first. */
export function classAttempts(
  attempts: readonly AttemptSummary[],
  classes: readonly ClassGroup[],
  { classId, scenarioId, place }: ClassChoice,
): AttemptSummary[] {
  const members = classId === null ? null : new Set(classes.find(({ id }) => id === classId)?.memberIds ?? []);
  return attempts
    .filter(
      (one) =>
        one.scenarioId === scenarioId &&
        one.passed !== null &&
        (members === null || members.has(one.personId)) &&
        (place === null || one.place === place),
    )
    .sort((a, b) => (a.startedAt < b.startedAt ? -1 : a.startedAt > b.startedAt ? 1 : 0));
}

/** The middle of the values; the mean of the two middle ones where their number is even. Null without any. */
export function median(values: readonly (number | null)[]): number | null {
  const sorted = values
    .filter((value): value is number => value !== null && Number.isFinite(value))
    .sort((a, b) => a - b);
  if (sorted.length === 0) return null;
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

function streakOf(attempts: readonly AttemptSummary[]): number {
  const missed = attempts.findLastIndex(({ passed }) => passed !== true);
  return attempts.length - 1 - missed;
}

function rowOf({ id, name }: Pick<Person, 'id' | 'name'>, mine: readonly AttemptSummary[]): PersonRow {
  const middle = (key: string) => median(mine.map((one) => metricValue(key, one)));
  const passed = mine.filter((one) => one.passed === true).length;
  return {
    personId: id,
    name,
    attempts: mine.length,
    passed,
    passedShare: mine.length === 0 ? null : passed / mine.length,
    streak: streakOf(mine),
    lastAt: mine.at(-1)?.startedAt ?? null,
    diameter_mm: middle('equivalentDiameter_mm'),
    centreOff_mm: middle('centroidDistance_mm'),
    circularity: middle('circularity'),
    time_s: middle('time_s'),
    doubtful: mine.filter(({ seal, replay }) => seal === 'broken' || replay === 'different').length,
  };
}

/** One row a person: all members of the class, also those without attempts; for everybody, those with attempts. */
export function personRows(
  attempts: readonly AttemptSummary[],
  people: readonly Person[],
  group: ClassGroup | null,
): PersonRow[] {
  const byPerson = new Map<string, AttemptSummary[]>();
  for (const one of attempts) {
    const mine = byPerson.get(one.personId);
    if (mine === undefined) byPerson.set(one.personId, [one]);
    else mine.push(one);
  }
  const names = new Map(people.map(({ id, name }) => [id, name]));
  const ids = group === null ? [...byPerson.keys()] : group.memberIds;
  return ids
    .map((id) => {
      const mine = byPerson.get(id) ?? [];
      return rowOf({ id, name: names.get(id) ?? mine[0]?.personName ?? t('logbook.people.unknown') }, mine);
    })
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** One metric of every attempt, a row of dots for each person, with the band of the tolerance upright. */
export function stripChart(key: string, attempts: readonly AttemptSummary[], rows: readonly PersonRow[]): ChartSpec {
  const row = new Map(rows.map(({ personId }, at) => [personId, at]));
  const tolerance = latestGraded(attempts).find(({ metric }) => metric === key);
  const points = attempts
    .flatMap((attempt): ChartPoint[] => {
      const value = metricValue(key, attempt);
      const at = row.get(attempt.personId);
      if (value === null || at === undefined) return [];
      const met =
        tolerance === undefined ||
        ((tolerance.atLeast === undefined || value >= tolerance.atLeast) &&
          (tolerance.atMost === undefined || value <= tolerance.atMost));
      const said = { person: attempt.personName, when: whenWords(attempt.startedAt), came: metricText(key, value) };
      const words = t('logbook.class.point', said);
      return [{ x: value, y: -at, mark: met ? 'dot' : 'cross', words }];
    })
    .sort((a, b) => a.x - b.x);
  const missing = attempts.length - points.length;
  const title = titleWithLimits(key, tolerance);
  return {
    title: missing > 0 ? t('logbook.class.notMeasured', { metric: title, count: missing }) : title,
    xLabel: unitOf(key),
    yLabel: '',
    xIsTime: false,
    points,
    joined: false,
    band: tolerance === undefined ? null : { axis: 'x', from: tolerance.atLeast ?? null, to: tolerance.atMost ?? null },
    levels: [],
    rows: rows.map(({ name }) => name),
    decimals: metricLabel(key).decimals,
  };
}

/** The table per person as comma-separated values; in English in every language, as other programs read it. */
export const classCsv = (rows: readonly PersonRow[]): string =>
  csvOf([
    [
      'Person',
      'Attempts',
      'Passed',
      'Passed, share',
      'Passed in a row',
      'Latest',
      'Median diameter, mm',
      'Median distance from the centre, mm',
      'Median circularity',
      'Median time, s',
      'Doubtful',
    ],
    ...rows.map((row) => [
      row.name,
      row.attempts,
      row.passed,
      row.passedShare,
      row.streak,
      row.lastAt,
      row.diameter_mm,
      row.centreOff_mm,
      row.circularity,
      row.time_s,
      row.doubtful,
    ]),
  ]);
