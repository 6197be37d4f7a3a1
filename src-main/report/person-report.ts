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
import type { AttemptSummary, OpeningShape } from '../ipc/contract.ts';
import { capital, moment, plain, quantity } from './figures.ts';
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
  if (charts.length === 0) return html`<section><h2>Learning curves</h2><p>This scenario grades nothing.</p></section>`;
  return html`<section><h2>Learning curves, attempt by attempt; dot: within the limits (grey), cross: outside</h2><div class="thirds">${charts}</div></section>`;
}

function twoBoundary(passed: readonly boolean[], { rates, risks }: CourseLimits): Markup {
  const { curve, lower, upper, acceptableAt, unacceptableAt } = twoBoundaryCusum(passed, rates, risks);
  const good = acceptableAt !== null && (unacceptableAt === null || acceptableAt < unacceptableAt);
  const at = good ? acceptableAt : unacceptableAt;
  const says =
    at === null
      ? `Not enough evidence after ${passed.length} attempts.`
      : `At attempt ${at + 1} the share of misses was ${good ? '' : 'not '}good enough.`;
  const chart = printChart({
    title: `Two-boundary sum: ${plain(100 * rates.acceptable)} % of misses is good enough, ${plain(100 * rates.unacceptable)} % is not`,
    values: curve,
    good: passed,
    decimals: 1,
    levels: [
      { at: upper, words: 'not good enough above' },
      { at: lower, words: 'good enough below' },
    ],
    width_mm: 95,
    height_mm: 24,
  });
  return html`${chart}<p><b>${says}</b> <span class="soft">${CUSUM_EXPLAINED.twoBoundary}</span></p>`;
}

function learning(passed: readonly boolean[], { rates, cases, falseSignalRate }: CourseLimits): Markup {
  const { limit, trueSignalRate, runs } = simulateLimit({ rates, cases, falseSignalRate });
  const { curve, competentAt } = learningCusum(passed, rates, limit);
  const says =
    competentAt === null
      ? `The line was not reached in ${passed.length} attempts.`
      : `Attempt ${competentAt + 1} reached the line.`;
  const chart = printChart({
    title: 'Learning-curve sum',
    values: curve,
    good: passed,
    decimals: 1,
    levels: [{ at: limit, words: `line at ${limit.toFixed(2)}` }],
    width_mm: 95,
    height_mm: 24,
  });
  const made = `Line by simulation of ${runs} learners: it wrongly calls at most ${plain(100 * falseSignalRate)} % of those not there yet ready within ${cases} attempts, and finds ${plain(Math.round(1000 * trueSignalRate) / 10)} % of those who are.`;
  return html`${chart}<p><b>${says}</b> <span class="soft">${CUSUM_EXPLAINED.learningCurve} ${made}</span></p>`;
}

function outcome({ ended, passed }: AttemptSummary): string {
  if (passed === true) return '✓ passed';
  if (ended === null) return 'unfinished';
  if (ended === 'complete') return '✗ not passed';
  return ended === 'run-out' ? '✗ run-out' : ended === 'stalled' ? 'not judged' : '✗ not complete';
}

const SEALS = { fits: 'fits', broken: 'BROKEN', unsealed: 'none' } as const;
const REPLAYS = { same: 'same', different: 'DIFFERENT', 'not-tried': 'not tried' } as const;

/** Columns of the table beside those of every attempt. */
const COLUMNS = [
  'equivalentDiameter_mm',
  'circularity',
  'centroidDistance_mm',
  'grasps',
  'peakForce_mN',
  'time_s',
] as const;
const HEADS = ['Diameter', 'Circularity', 'Off centre', 'Grasps', 'Peak force', 'Time'];

function attemptTable(attempts: readonly AttemptSummary[], timeZone?: string): Markup {
  const listed = attempts.map((attempt, at) => ({ attempt, number: at + 1 })).slice(-MOST_LISTED);
  const rows = listed.reverse().map(({ attempt, number }) => {
    const values = COLUMNS.map((key) => {
      const { decimals, unit } = labelOf(key);
      const value = metricValue(attempt, key);
      return html`<td class="n">${value === null ? '–' : quantity(value, decimals, unit)}</td>`;
    });
    return html`<tr><td class="n">${number}</td><td class="w">${moment(attempt.startedAt, timeZone)}</td><td>${attempt.place}</td><td class="w">${outcome(attempt)}</td>${values}<td>${SEALS[attempt.seal]}</td><td>${REPLAYS[attempt.replay]}</td></tr>`;
  });
  const earlier = attempts.length - listed.length;
  const more =
    earlier > 0 &&
    html`<p class="soft">${earlier} earlier attempt${earlier === 1 ? '' : 's'} not listed; the charts hold all of them. – means not measured.</p>`;
  const heads = HEADS.map((head) => html`<th class="n">${head}</th>`);
  return html`<section><h2>Attempts, the latest first</h2><table class="small"><thead><tr><th class="n">No.</th><th>Begun</th><th>Place</th><th>Outcome</th>${heads}<th>Seal</th><th>Replay</th></tr></thead><tbody>${rows}</tbody></table>${more}</section>`;
}

/** What a reader must know before trusting the charts; empty when all is well. */
function warnings(attempts: readonly AttemptSummary[]): Markup {
  const broken = attempts.filter(({ seal, replay }) => seal === 'broken' || replay === 'different').length;
  const eyes = new Set(attempts.map(({ scenarioDigest }) => scenarioDigest)).size;
  const models = new Set(attempts.map(({ modelVersion }) => modelVersion)).size;
  return html`${broken > 0 && html`<p><b>${broken} of these attempts ${broken === 1 ? 'has' : 'have'} a broken seal or played again to another opening: do not rely on the charts.</b></p>`}${eyes > 1 && html`<p>The eye or its limits were changed between attempts (${eyes} versions); the limits shown are those of the last one.</p>`}${models > 1 && html`<p>Attempts of ${models} versions of the model stand side by side here.</p>`}`;
}

function heading(report: PersonReport, closed: readonly AttemptSummary[]): Markup {
  const passed = closed.filter((one) => one.passed === true).length;
  const [first, last] = [closed[0], closed.at(-1)];
  const { timeZone } = report;
  const span =
    first === undefined || last === undefined
      ? ''
      : `${moment(first.startedAt, timeZone)} to ${moment(last.startedAt, timeZone)}`;
  return html`<header><div><h1>${report.personName}</h1><p class="who">${report.scenario.title}</p><p class="soft">${span === '' ? 'No finished attempt yet' : span}, Rimward</p></div>
<div class="outcome">${passed} of ${closed.length} passed<small>${closed.length === 1 ? 'one finished attempt' : `${closed.length} finished attempts`}</small></div></header>`;
}

/** The report of one person in one scenario as a whole HTML page; it fetches nothing and runs nothing. */
export function personReportHtml(report: PersonReport): string {
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
      ? html`<p>No finished attempt yet: no sums to show.</p>`
      : html`${twoBoundary(passed, limits)}${learning(passed, limits)}`;
  const body = html`${heading(report, closed)}${warnings(closed)}
<div class="drawn"><section>${openingsDrawing(outlines, scenario)}</section><section>${sums}</section></div>
${curves(closed)}${attemptTable(attempts, timeZone)}`;
  const footer = html`<p>Printed ${moment(printedAt, timeZone)}. Scenario ${scenario.id}. A pass is an attempt in which every limit of the scenario was met; a miss is any other finished attempt.</p>`;
  return page(`${report.personName}, ${scenario.title}`, report.paper ?? 'a4', body, footer);
}
