/** One page about one person in one scenario, to print: openings over each other, learning curves, cumulative sums, attempts. */

import {
  type CourseLimits,
  CUSUM_EXPLAINED,
  type GradedItem,
  learningCusum,
  type Scenario,
  simulateLimit,
  twoBoundaryCusum,
  USUAL_LIMITS,
} from '../../physics/index.ts';
import type { Language } from '../../src-renderer/i18n/languages.ts';
import type { AttemptSummary, OpeningShape } from '../ipc/contract.ts';
import { inLanguage, t, textOf } from '../words/words.ts';
import { capital, moment, number, plain, quantity } from './figures.ts';
import { html, type Markup } from './html.ts';
import { labelOf, limitWords } from './metric-tables.ts';
import { openingsDrawing } from './opening-drawing.ts';
import { CONTENT_mm, type Paper, page } from './paper.ts';
import { printChart } from './print-chart.ts';

export interface PersonReport {
  readonly personName: string;
  /** The eye as it was played last. */
  readonly scenario: Scenario;
  /** All attempts of the person in this scenario, in any order; unfinished ones are left out of the charts. */
  readonly attempts: readonly AttemptSummary[];
  /** Outlines of the complete ones, in any order. */
  readonly shapes: readonly OpeningShape[];
  readonly limits?: CourseLimits;
  /** ISO 8601. */
  readonly printedAt: string;
  readonly paper?: Paper;
  readonly timeZone?: string;
  /** English when absent. */
  readonly language?: Language;
}

/** Lines of the table; earlier attempts are counted. */
const MOST_LISTED = 8;
const MOST_CURVES = 6;

const byTime = (a: AttemptSummary, b: AttemptSummary): number =>
  a.startedAt < b.startedAt ? -1 : a.startedAt > b.startedAt ? 1 : 0;

function metricValue(attempt: AttemptSummary, metric: string): number | null {
  const value = { ...attempt.work, ...attempt.opening }[metric as never] as unknown;
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

const within = (value: number | null, { atLeast, atMost }: GradedItem): boolean =>
  value !== null && (atLeast === undefined || value >= atLeast) && (atMost === undefined || value <= atMost);

/** Curves of what the last attempt was graded by, each with its band. */
function curves(attempts: readonly AttemptSummary[]): Markup {
  const graded = attempts.at(-1)?.graded.slice(0, MOST_CURVES) ?? [];
  const width_mm = (CONTENT_mm - 8) / 3;
  const charts = graded.map((item) => {
    const { label, decimals } = labelOf(item.metric);
    const values = attempts.map((attempt) => metricValue(attempt, item.metric));
    return printChart({
      title: `${capital(label)}: ${limitWords(item)}`,
      values,
      good: values.map((value) => within(value, item)),
      decimals,
      band: { from: item.atLeast, to: item.atMost },
      width_mm,
      height_mm: 19,
    });
  });
  if (charts.length === 0)
    return html`<section><h2>${t('report.person.curves')}</h2><p>${t('report.table.nothing')}</p></section>`;
  return html`<section><h2>${t('report.person.curvesKey')}</h2><div class="thirds">${charts}</div></section>`;
}

function twoBoundary(passed: readonly boolean[], { rates, risks }: CourseLimits): Markup {
  const { curve, lower, upper, acceptableAt, unacceptableAt } = twoBoundaryCusum(passed, rates, risks);
  const good = acceptableAt !== null && (unacceptableAt === null || acceptableAt < unacceptableAt);
  const at = good ? acceptableAt : unacceptableAt;
  const says =
    at === null
      ? t('report.person.notEnough', { count: passed.length })
      : t(good ? 'report.person.good' : 'report.person.notGood', { at: at + 1 });
  const chart = printChart({
    title: t('report.person.twoBoundary', {
      good: plain(100 * rates.acceptable),
      bad: plain(100 * rates.unacceptable),
    }),
    values: curve,
    good: passed,
    decimals: 1,
    levels: [
      { at: upper, words: t('report.person.notGoodAbove') },
      { at: lower, words: t('report.person.goodBelow') },
    ],
    width_mm: 95,
    height_mm: 24,
  });
  return html`${chart}<p><b>${says}</b> <span class="soft">${textOf(CUSUM_EXPLAINED.twoBoundary)}</span></p>`;
}

function learning(passed: readonly boolean[], { rates, cases, falseSignalRate }: CourseLimits): Markup {
  const { limit, trueSignalRate, runs } = simulateLimit({ rates, cases, falseSignalRate });
  const { curve, competentAt } = learningCusum(passed, rates, limit);
  const says =
    competentAt === null
      ? t('report.person.notReached', { count: passed.length })
      : t('report.person.reached', { at: competentAt + 1 });
  const chart = printChart({
    title: t('report.person.learning'),
    values: curve,
    good: passed,
    decimals: 1,
    levels: [{ at: limit, words: t('report.person.line', { at: number(limit, 2) }) }],
    width_mm: 95,
    height_mm: 24,
  });
  const made = t('report.person.made', {
    runs,
    cases,
    wrong: plain(100 * falseSignalRate),
    found: plain(Math.round(1000 * trueSignalRate) / 10),
  });
  return html`${chart}<p><b>${says}</b> <span class="soft">${textOf(CUSUM_EXPLAINED.learningCurve)} ${made}</span></p>`;
}

function outcome({ ended, passed }: AttemptSummary): string {
  if (passed === true) return t('report.person.outcome.passed');
  if (ended === null) return t('report.person.outcome.unfinished');
  if (ended === 'complete') return t('report.person.outcome.notPassed');
  if (ended === 'run-out') return t('report.person.outcome.runOut');
  return t(ended === 'stalled' ? 'report.person.outcome.stalled' : 'report.person.outcome.open');
}

/** Columns of the table beside those of every attempt. */
const COLUMNS = [
  'equivalentDiameter_mm',
  'circularity',
  'centroidDistance_mm',
  'grasps',
  'peakForce_mN',
  'time_s',
] as const;
const HEADS = ['diameter', 'circularity', 'offCentre', 'grasps', 'peakForce', 'time'] as const;

function attemptTable(attempts: readonly AttemptSummary[], timeZone?: string): Markup {
  const listed = attempts.map((attempt, at) => ({ attempt, at })).slice(-MOST_LISTED);
  const rows = listed.reverse().map(({ attempt, at }) => {
    const values = COLUMNS.map((key) => {
      const { decimals, unit } = labelOf(key);
      const value = metricValue(attempt, key);
      return html`<td class="n">${value === null ? '–' : quantity(value, decimals, unit)}</td>`;
    });
    return html`<tr><td class="n">${at + 1}</td><td class="w">${moment(attempt.startedAt, timeZone, 'short')}</td><td>${t(`report.person.place.${attempt.place}`)}</td><td class="w">${outcome(attempt)}</td>${values}<td>${t(`report.person.seal.${attempt.seal}`)}</td><td>${t(`report.person.replay.${attempt.replay}`)}</td></tr>`;
  });
  const earlier = attempts.length - listed.length;
  const more = earlier > 0 && html`<p class="soft">${t('report.person.earlier', { count: earlier })}</p>`;
  const heads = HEADS.map((head) => html`<th class="n">${t(`report.person.head.${head}`)}</th>`);
  return html`<section><h2>${t('report.person.attempts')}</h2><table class="small"><thead><tr><th class="n">${t('report.person.head.number')}</th><th>${t('report.person.head.begun')}</th><th>${t('report.person.head.place')}</th><th>${t('report.person.head.outcome')}</th>${heads}<th>${t('report.person.head.seal')}</th><th>${t('report.person.head.replay')}</th></tr></thead><tbody>${rows}</tbody></table>${more}</section>`;
}

/** What a reader must know before trusting the charts; empty when all is well. */
function warnings(attempts: readonly AttemptSummary[]): Markup {
  const broken = attempts.filter(({ seal, replay }) => seal === 'broken' || replay === 'different').length;
  const eyes = new Set(attempts.map(({ scenarioDigest }) => scenarioDigest)).size;
  const models = new Set(attempts.map(({ modelVersion }) => modelVersion)).size;
  return html`${broken > 0 && html`<p><b>${t('report.person.broken', { count: broken })}</b></p>`}${eyes > 1 && html`<p>${t('report.person.eyes', { count: eyes })}</p>`}${models > 1 && html`<p>${t('report.person.models', { count: models })}</p>`}`;
}

function heading(report: PersonReport, closed: readonly AttemptSummary[]): Markup {
  const passed = closed.filter((one) => one.passed === true).length;
  const [first, last] = [closed[0], closed.at(-1)];
  const { timeZone } = report;
  const span =
    first === undefined || last === undefined
      ? t('report.person.noSpan')
      : t('report.person.span', { from: moment(first.startedAt, timeZone), to: moment(last.startedAt, timeZone) });
  return html`<header><div><h1>${report.personName}</h1><p class="who">${textOf(report.scenario.title)}</p><p class="soft">${span}</p></div>
<div class="outcome">${t('report.person.passedOf', { passed, all: closed.length })}<small>${t('report.person.finished', { count: closed.length })}</small></div></header>`;
}

/** The report of one person in one scenario as a whole HTML page; it fetches nothing and runs nothing. */
export function personReportHtml(report: PersonReport): string {
  return inLanguage(report.language ?? 'en', () => written(report));
}

function written(report: PersonReport): string {
  const { scenario, shapes, limits = USUAL_LIMITS, printedAt, timeZone } = report;
  const attempts = [...report.attempts].sort(byTime);
  const closed = attempts.filter(({ passed }) => passed !== null);
  const order = new Map(attempts.map(({ id }, at) => [id, at]));
  const known = shapes.filter(({ attemptId }) => order.has(attemptId));
  const outlines = known
    .sort((a, b) => (order.get(a.attemptId) ?? 0) - (order.get(b.attemptId) ?? 0))
    .map(({ outline_mm }) => outline_mm);
  const passed = closed.map((one) => one.passed === true);
  const sums =
    passed.length === 0
      ? html`<p>${t('report.person.noSums')}</p>`
      : html`${twoBoundary(passed, limits)}${learning(passed, limits)}`;
  const body = html`${heading(report, closed)}${warnings(closed)}
<div class="drawn"><section>${openingsDrawing(outlines, scenario)}</section><section>${sums}</section></div>
${curves(closed)}${attemptTable(attempts, timeZone)}`;
  const footer = html`<p>${t('report.printed', { when: moment(printedAt, timeZone) })} ${t('report.person.footer', { id: scenario.id })}</p>`;
  return page(`${report.personName}, ${textOf(scenario.title)}`, report.paper ?? 'a4', body, footer);
}
