/** One page about one attempt, to print. */
import type { AttemptResult, CostlyMoment } from '../../physics/index.ts';
import type { ReplayState, StoredAttempt } from '../ipc/contract.ts';
import { eyeFacts } from './eye-facts.ts';
import { capital, duration, moment, number } from './figures.ts';
import { html, type Markup } from './html.ts';
import { gradedTable, labelOf, openingTable, workTables } from './metric-tables.ts';
import { openingDrawing } from './opening-drawing.ts';
import { type Paper, page } from './paper.ts';

/** What a report says beyond what is stored. */
export interface AttemptExtras {
  /** From playing the attempt again (`playAgain`); null when that was not done. */
  readonly moments: readonly CostlyMoment[] | null;
  /** What playing it again gave just now; the stored note stands when absent. */
  readonly replay?: ReplayState;
  /** ISO 8601. */
  readonly printedAt: string;
  readonly paper?: Paper;
  /** IANA name of the zone in which times are printed; the machine's own when absent. */
  readonly timeZone?: string;
}

const SEAL_WORDS = {
  fits: 'The seal fits: nothing was changed since the attempt ended.',
  broken: 'THE SEAL IS BROKEN: something was changed after the attempt ended. Do not rely on this page.',
  unsealed: 'This attempt has no seal.',
} as const;

const REPLAY_WORDS = {
  same: 'Played again, it gave the same opening.',
  different: 'PLAYED AGAIN, IT GAVE ANOTHER OPENING. Do not rely on this page.',
  'not-tried': 'It was not played again.',
} as const;

/** The outcome in a word or two and in a sentence. */
export function outcomeWords(result: AttemptResult | null): readonly [string, string] {
  if (result === null) return ['Unfinished', 'The attempt was begun and never ended; nothing was measured.'];
  const missed = result.graded.filter(({ met }) => !met).length;
  const of = `${result.graded.length - missed} of ${result.graded.length} limits met`;
  if (result.ended === 'run-out')
    return ['✗ Run-out', 'The tear passed the zonule ring; there is no opening to measure.'];
  if (result.ended === 'stalled') return ['Not judged', 'The computation stalled, so this attempt cannot be judged.'];
  if (result.ended === 'open')
    return ['✗ Not complete', 'The tear did not meet its start; there is no opening to measure.'];
  if (result.graded.length === 0) return ['Complete', 'Nothing was graded.'];
  return result.passed ? ['✓ Passed', of] : ['✗ Not passed', of];
}

function heading({ summary, result }: StoredAttempt, timeZone?: string): Markup {
  const [outcome, sentence] = outcomeWords(result);
  const length = result === null ? '' : `, ${duration(result.work.time_s)} min`;
  const place = summary.place === 'trial' ? 'Trial' : 'Bench';
  return html`<header><div><h1>${summary.scenarioTitle}</h1>
<p class="who"><b>${summary.personName}</b> · ${moment(summary.startedAt, timeZone)}${length}</p>
<p class="soft">${place} attempt, Rimward</p></div>
<div class="outcome">${outcome}<small>${sentence}</small></div></header>`;
}

function facts({ scenario }: StoredAttempt): Markup {
  const rows = eyeFacts(scenario).map(
    ([label, words]) => html`<tr><td class="soft w">${label}</td><td>${words}</td></tr>`,
  );
  return html`<section><h2>The eye and the task</h2><table class="small"><tbody>${rows}</tbody></table></section>`;
}

/** Why limits were missed; those that could not be measured at all share one sentence. */
function reasons(result: AttemptResult): Markup | null {
  const missed = result.graded.filter(({ met }) => !met);
  if (missed.length === 0) return null;
  const unmeasured = missed.filter(({ value }) => value === null).map(({ metric }) => labelOf(metric).label);
  const rest = missed.filter(({ value }) => value !== null).map(({ reason }) => html`<p>✗ ${reason}</p>`);
  const without =
    unmeasured.length === 0
      ? null
      : html`<p>✗ The opening is not complete, so these were not measured: ${unmeasured.join(', ')}.</p>`;
  return html`<section><h2>Why not met</h2>${without}${rest}</section>`;
}

const when = ({ from_s, to_s }: CostlyMoment): string =>
  to_s - from_s < 0.05 ? `${number(to_s, 1)} s` : `${number(from_s, 1)} to ${number(to_s, 1)} s`;

function costly(moments: readonly CostlyMoment[] | null): Markup {
  if (moments === null)
    return html`<section><h2>Moments that cost the most</h2><p>Not worked out: the attempt was not played again.</p></section>`;
  if (moments.length === 0)
    return html`<section><h2>Moments that cost the most</h2><p>None worth a word.</p></section>`;
  const rows = moments.map((one) => {
    const decimals = one.unit.startsWith('mm') ? 2 : 1;
    return html`<tr><td class="w">${when(one)}</td><td class="n">${number(one.cost, decimals)} ${one.unit.split(' ')[0]}</td><td>${one.sentence}</td></tr>`;
  });
  return html`<section><h2>Moments that cost the most, the worst first</h2><table class="small"><thead><tr><th>When</th><th class="n">Cost</th><th>What happened</th></tr></thead><tbody>${rows}</tbody></table></section>`;
}

/** All metrics; the work takes the whole width where there is no opening to measure. */
function everything(result: AttemptResult | null): Markup {
  const opening = result?.opening ?? null;
  if (opening !== null)
    return html`<div class="halves">${openingTable(opening)}${workTables(result?.work ?? null, 1)}</div>`;
  return html`<p><b>The opening was not measured: it is not complete.</b></p><div class="halves">${workTables(result?.work ?? null, 2)}</div>`;
}

function evidence({ summary }: StoredAttempt, extras: AttemptExtras): Markup {
  const replay = extras.replay ?? summary.replay;
  const digest = summary.digest === null ? '' : `, digest of the end ${summary.digest}`;
  const id = summary.id === '' ? '' : `Attempt ${summary.id}. `;
  return html`<p>${SEAL_WORDS[summary.seal]} ${REPLAY_WORDS[replay]} Model version ${summary.modelVersion}, seed ${String(summary.seed)}, ${String(summary.steps)} steps of 1/60 s${digest}.</p>
<p class="soft">${id}Scenario ${summary.scenarioId}, <code>${summary.scenarioDigest}</code>. Printed ${moment(extras.printedAt, extras.timeZone)}.</p>`;
}

/**
 * The report of one attempt as a whole HTML page: it fetches nothing, runs nothing and prints on A4 or Letter.
 *
 * @param stored as the store gives it; an unfinished attempt has a page too, with nothing measured
 */
export function attemptReportHtml(stored: StoredAttempt, extras: AttemptExtras): string {
  const { result, scenario, summary } = stored;
  const drawing = result === null ? html`<p>Nothing to draw.</p>` : openingDrawing(result, scenario);
  const body = html`${heading(stored, extras.timeZone)}
<div class="drawn"><section>${drawing}</section><div>${facts(stored)}<section>${gradedTable(result?.graded ?? [])}</section></div></div>
${result === null ? null : reasons(result)}
${costly(extras.moments)}
${everything(result)}`;
  const title = `${capital(summary.scenarioTitle)}, ${summary.personName}`;
  return page(title, extras.paper ?? 'a4', body, evidence(stored, extras));
}
