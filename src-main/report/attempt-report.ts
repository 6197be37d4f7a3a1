/** One page about one attempt, to print. */

import type { AttemptResult, CostlyMoment } from '../../physics/index.ts';
import type { Language } from '../../src-renderer/i18n/languages.ts';
import type { ReplayState, StoredAttempt } from '../ipc/contract.ts';
import { inLanguage, playerOf, sentenceOf, t, textOf } from '../words/words.ts';
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
  /** English when absent. */
  readonly language?: Language;
}

/** The outcome in a word or two and in a sentence. */
export function outcomeWords(result: AttemptResult | null): readonly [string, string] {
  if (result === null) return [t('report.outcome.unfinished'), t('report.outcome.unfinishedWhy')];
  const missed = result.graded.filter(({ met }) => !met).length;
  const of = t('report.outcome.limits', { met: result.graded.length - missed, all: result.graded.length });
  if (result.ended === 'run-out') return [t('report.outcome.runOut'), t('report.outcome.runOutWhy')];
  if (result.ended === 'stalled') return [t('report.outcome.stalled'), t('report.outcome.stalledWhy')];
  if (result.ended === 'open') return [t('report.outcome.open'), t('report.outcome.openWhy')];
  if (result.graded.length === 0) return [t('report.outcome.complete'), t('report.outcome.nothingGraded')];
  return [t(result.passed ? 'report.outcome.passed' : 'report.outcome.notPassed'), of];
}

function heading({ summary, result }: StoredAttempt, timeZone?: string): Markup {
  const [outcome, sentence] = outcomeWords(result);
  const length = result === null ? '' : `, ${duration(result.work.time_s)} min`;
  return html`<header><div><h1>${textOf(summary.scenarioTitle)}</h1>
<p class="who"><b>${playerOf(summary)}</b> · ${moment(summary.startedAt, timeZone)}${length}</p>
<p class="soft">${t(`report.attempt.place.${summary.place}`)}</p></div>
<div class="outcome">${outcome}<small>${sentence}</small></div></header>`;
}

function facts({ scenario }: StoredAttempt): Markup {
  const rows = eyeFacts(scenario).map(
    ([label, words]) => html`<tr><td class="soft w">${label}</td><td>${words}</td></tr>`,
  );
  return html`<section><h2>${t('report.attempt.eyeAndTask')}</h2><table class="small"><tbody>${rows}</tbody></table></section>`;
}

/** Why limits were missed; those that could not be measured at all share one sentence. */
function reasons(result: AttemptResult): Markup | null {
  const missed = result.graded.filter(({ met }) => !met);
  if (missed.length === 0) return null;
  const unmeasured = missed.filter(({ value }) => value === null).map(({ metric }) => labelOf(metric).label);
  const rest = missed.filter(({ value }) => value !== null).map(({ reason }) => html`<p>✗ ${sentenceOf(reason)}</p>`);
  const without =
    unmeasured.length === 0
      ? null
      : html`<p>✗ ${t('report.attempt.notMeasured', { names: unmeasured.join(', ') })}</p>`;
  return html`<section><h2>${t('report.attempt.whyNotMet')}</h2>${without}${rest}</section>`;
}

const when = ({ from_s, to_s }: CostlyMoment): string =>
  to_s - from_s < 0.05
    ? `${number(to_s, 1)} s`
    : t('report.attempt.span', { from: number(from_s, 1), to: number(to_s, 1) });

function costly(moments: readonly CostlyMoment[] | null): Markup {
  if (moments === null)
    return html`<section><h2>${t('report.attempt.costly')}</h2><p>${t('report.attempt.costlyNot')}</p></section>`;
  if (moments.length === 0)
    return html`<section><h2>${t('report.attempt.costly')}</h2><p>${t('report.attempt.costlyNone')}</p></section>`;
  const rows = moments.map((one) => {
    const decimals = one.unit.startsWith('mm') ? 2 : 1;
    return html`<tr><td class="w">${when(one)}</td><td class="n">${number(one.cost, decimals)} ${one.unit.split(' ')[0]}</td><td>${sentenceOf(one.sentence)}</td></tr>`;
  });
  return html`<section><h2>${t('report.attempt.costlyWorst')}</h2><table class="small"><thead><tr><th>${t('report.attempt.when')}</th><th class="n">${t('report.attempt.cost')}</th><th>${t('report.attempt.what')}</th></tr></thead><tbody>${rows}</tbody></table></section>`;
}

/** All metrics; the work takes the whole width where there is no opening to measure. */
function everything(result: AttemptResult | null): Markup {
  const opening = result?.opening ?? null;
  if (opening !== null)
    return html`<div class="halves">${openingTable(opening)}${workTables(result?.work ?? null, 1)}</div>`;
  return html`<p><b>${t('report.attempt.notComplete')}</b></p><div class="halves">${workTables(result?.work ?? null, 2)}</div>`;
}

function evidence({ summary }: StoredAttempt, extras: AttemptExtras): Markup {
  const replay = extras.replay ?? summary.replay;
  const of = { version: summary.modelVersion, seed: String(summary.seed), steps: String(summary.steps) };
  const made =
    summary.digest === null
      ? t('report.attempt.evidence', of)
      : t('report.attempt.evidenceDigest', { ...of, digest: summary.digest });
  const id = summary.id === '' ? '' : `${t('report.attempt.id', { id: summary.id })} `;
  const printed = t('report.printed', { when: moment(extras.printedAt, extras.timeZone) });
  return html`<p>${t(`report.seal.${summary.seal}`)} ${t(`report.replay.${replay}`)} ${made}</p>
<p class="soft">${id}${t('report.attempt.scenario', { id: summary.scenarioId })} <code>${summary.scenarioDigest}</code>. ${printed}</p>`;
}

/**
 * The report of one attempt as a whole HTML page: it fetches nothing, runs nothing and prints on A4 or Letter.
 *
 * @param stored as the store gives it; an unfinished attempt has a page too, with nothing measured
 */
export function attemptReportHtml(stored: StoredAttempt, extras: AttemptExtras): string {
  return inLanguage(extras.language ?? 'en', () => written(stored, extras));
}

function written(stored: StoredAttempt, extras: AttemptExtras): string {
  const { result, scenario, summary } = stored;
  const drawing =
    result === null ? html`<p>${t('report.attempt.nothingToDraw')}</p>` : openingDrawing(result, scenario);
  const body = html`${heading(stored, extras.timeZone)}
<div class="drawn"><section>${drawing}</section><div>${facts(stored)}<section>${gradedTable(result?.graded ?? [])}</section></div></div>
${result === null ? null : reasons(result)}
${costly(extras.moments)}
${everything(result)}`;
  const title = `${capital(textOf(summary.scenarioTitle))}, ${playerOf(summary)}`;
  return page(title, extras.paper ?? 'a4', body, evidence(stored, extras));
}
