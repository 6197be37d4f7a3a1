/** What the program around the page says in each language: reports, and the window's menu. */

import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { AttemptResult, CostlyMoment } from '../../physics/index.ts';
import { followLanguage } from '../../src-main/electron/follow-language.ts';
import { buildMenu } from '../../src-main/electron/menu.ts';
import { keptData } from '../../src-main/files/kept-data.ts';
import type { AttemptSummary, StoredAttempt } from '../../src-main/ipc/contract.ts';
import { attemptReportHtml } from '../../src-main/report/attempt-report.ts';
import { moment, number, plain, quantity } from '../../src-main/report/figures.ts';
import { personReportHtml } from '../../src-main/report/person-report.ts';
import { ReportPages, reportHeaders } from '../../src-main/store/report-pages.ts';
import { Store } from '../../src-main/store/store.ts';
import { inLanguage, speak, spokenLanguage, t } from '../../src-main/words/words.ts';
import { LANGUAGES, languageOf } from '../../src-renderer/i18n/languages.ts';
import { commandLine } from '../support/command-line.ts';
import { madeResult, scenario } from '../support/made-attempts.ts';

vi.mock('electron', () => import('../support/electron-double.ts'));

const others = LANGUAGES.filter((language) => language !== 'en');
const UUID = '11111111-1111-4111-8111-111111111111';
const printedAt = '2026-03-01T14:05:00Z';

afterEach(() => speak('en'));

function summaryOf(result: AttemptResult | null, at = 0): AttemptSummary {
  return {
    id: UUID.replace(/^1/, String(at % 10)),
    personId: UUID,
    personName: 'Ada Example',
    place: at % 2 === 0 ? 'trial' : 'bench',
    scenarioId: scenario.id,
    scenarioTitle: scenario.title,
    scenarioDigest: 'ab'.repeat(32),
    seed: 1,
    modelVersion: '1',
    startedAt: `2026-02-0${1 + at}T09:30:00Z`,
    endedAt: null,
    steps: result?.steps ?? 0,
    ended: result?.ended ?? null,
    passed: result?.passed ?? null,
    opening: result?.opening ?? null,
    work: result?.work ?? null,
    graded: result?.graded ?? [],
    digest: result?.digest ?? null,
    seal: 'fits',
    replay: 'same',
    fromBundle: null,
  };
}

const stored = (result: AttemptResult | null): StoredAttempt => ({
  summary: summaryOf(result),
  scenario,
  commands: [],
  result,
});

const missed = { metric: 'circularity', value: 0.8, atLeast: 0.85, met: false };
const reason = 'Circularity is 0.80; missed: it should be at least 0.85.';
const complete = { ...madeResult(3600), graded: [{ ...missed, reason }], passed: false };
const open: AttemptResult = { ...complete, ended: 'open', opening: null, outline_mm: null };
const runOut: AttemptResult = { ...open, ended: 'run-out' };
const costly: CostlyMoment = {
  kind: 'force',
  from_s: 2,
  to_s: 3,
  clock_h: null,
  cost: 4,
  unit: 'mN too much',
  weight: 1,
  sentence: 'The pull rose to 22 mN, 4 mN above twice what experienced hands use.',
};

type Language = (typeof LANGUAGES)[number];
const attempt = (result: AttemptResult | null, language: Language, moments: CostlyMoment[] | null = [costly]) =>
  attemptReportHtml(stored(result), { moments, printedAt, timeZone: 'UTC', language });
const person = (count: number, language: Language) => {
  const attempts = Array.from({ length: count }, (_, k) => summaryOf(madeResult(3600, k), k % 9));
  return personReportHtml({
    personName: 'Ada Example',
    scenario,
    attempts,
    shapes: [],
    printedAt,
    timeZone: 'UTC',
    language,
  });
};
const pages = (language: Language): readonly string[] => [
  attempt(complete, language),
  attempt(open, language, []),
  attempt(runOut, language, null),
  attempt({ ...open, ended: 'stalled' }, language),
  attempt({ ...complete, graded: [], passed: true }, language),
  attempt(null, language),
  person(0, language),
  person(1, language),
  person(12, language),
];

/** What a person reads of a page. */
const readable = (html: string): string => html.replace(/<style>[\s\S]*?<\/style>/g, ' ').replaceAll(/<[^>]+>/g, ' ');

describe('reports', () => {
  test.each(LANGUAGES)('in %s say their language, carry the caution and let no number slip', (language) => {
    for (const html of pages(language)) {
      // the page itself is long: a failure shows only what was looked for
      expect(html.includes(`<html lang="${language}">`)).toBe(true);
      expect(readable(html)).toContain(inLanguage(language, () => t('report.caution')));
      expect(readable(html).match(/NaN|undefined|\{\{|report\.[a-z]/)?.[0]).toBeUndefined();
    }
  });

  test.each(others)('in %s have no English word left', (language) => {
    const english = /\b(the|and|of|was|not|is|at|from|attempt|opening|Value|Limits|Printed|Scenario|years?|mm apart)\b/;
    for (const html of pages(language)) expect(readable(html).match(english)?.[0]).toBeUndefined();
    // the other way round it would be found
    expect(readable(attempt(complete, 'en'))).toMatch(english);
  });

  test('write numbers, dates and what ships as the language does', () => {
    const spanish = readable(attempt(complete, 'es'));
    expect(spanish).toContain('65 años, cámara llena');
    expect(spanish).toContain('Circularidad: 0,80; no se cumplió: debía ser al menos 0,85.');
    expect(spanish).toContain('22 mN');
    expect(spanish).toContain('1 de febrero de 2026');
    expect(spanish).not.toMatch(/\d\.\d/);
    expect(readable(attempt(complete, 'hi'))).toContain('65 साल, भरा चैंबर');
    expect(readable(person(12, 'es'))).toContain('de 12 superados');
    expect(readable(person(1, 'es'))).toContain('un intento terminado');
  });

  test('are in English as they always were', () => {
    const english = readable(attempt(open, 'en', null));
    for (const words of [
      'Ada Example · 1 February 2026 at 09:30 UTC, 1:00 min',
      'The tear did not meet its start; there is no opening to measure.',
      '✗ Circularity is 0.80; missed: it should be at least 0.85.',
      'flap at 12 o’clock, 70° at 2.36 mm',
      'Not worked out: the attempt was not played again.',
    ])
      expect(english.replaceAll(/ +/g, ' ')).toContain(words);
    expect([number(-0.001, 2), number(null, 1), plain(4.5), quantity(5, 0, 'degrees')]).toEqual([
      '0.00',
      'not measured',
      '4.5',
      '5°',
    ]);
    expect(moment('2026-02-01T00:05:00Z', 'UTC')).toBe('1 February 2026 at 00:05 UTC');
  });

  test('bring the font for Hindi with them, and only then may a font be loaded', () => {
    const rules = (html: string) => reportHeaders(html)['content-security-policy'];
    const hindi = attempt(complete, 'hi');
    expect(hindi.match(/@font-face \{[^}]*data:font\/woff2;base64,[A-Za-z0-9+/=]{1000,}/g)).toHaveLength(2);
    expect(rules(hindi)).toContain('font-src data:');
    for (const language of ['en', 'es'] as const) {
      expect(attempt(complete, language)).not.toContain('@font-face');
      expect(rules(attempt(complete, language))).not.toContain('font-src');
    }
  });

  test('come in the language that was chosen, else in the one the browser asks for', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'report-words-'));
    const kept = keptData(folder);
    const pagesOf = new ReportPages(new Store(folder), kept.loadPreferences);
    const unknown = async (accepted: string | null) => (await pagesOf.page(`/report/attempt/${UUID}`, accepted))?.html;
    expect(await unknown(null)).toContain('lang="en"');
    expect(await unknown('fr-FR,es-MX;q=0.8,en;q=0.5')).toContain('<h1>No hay informe</h1>');
    await kept.savePreference('view.language', 'hi');
    expect(await unknown('es')).toContain('lang="hi"');
  });

  test('are asked for on the command line in one of the languages', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'report-words-')), 'a.json');
    writeFileSync(file, '{}');
    const { code, err } = await commandLine('report', file, '--language', 'klingon');
    expect([code, err]).toEqual([2, expect.stringContaining('--language: found "klingon", allowed: en, es, hi')]);
  });
});

describe('the language that is spoken', () => {
  test('is set around a report and given back, even when making it fails', () => {
    speak('es');
    expect(() =>
      inLanguage('hi', () => {
        throw new Error('no page');
      }),
    ).toThrow('no page');
    expect(spokenLanguage()).toBe('es');
    attempt(complete, 'hi');
    expect(t('window.menu.edit')).toBe('Edición');
  });

  test('is the first of the wanted that is one of ours', () => {
    expect([['es-MX'], ['fr', 'HI'], [undefined, 7, 'en-GB'], []].map(languageOf)).toEqual(['es', 'hi', 'en', 'en']);
  });

  test('of the window is the one that was kept, and the menu follows a change', async () => {
    const kept = keptData(mkdtempSync(join(tmpdir(), 'window-words-')));
    const labels = () => JSON.stringify(buildMenu(false));
    let menus: string[] = [];
    const language = followLanguage(kept, () => menus.push(labels()));
    await language.speakFirst(['de-DE', 'es-ES']);
    expect(labels()).toContain('Imprimir esta página');
    await language.savePreference('view.theme', 'projector');
    expect(menus).toEqual([]);
    await language.savePreference('view.language', 'hi');
    expect(menus).toEqual([expect.stringContaining('यह पन्ना छापें')]);
    menus = [];
    speak('en');
    await language.speakFirst(['es']);
    expect(labels()).toContain('यह पन्ना छापें');
    expect(labels()).not.toMatch(/Print|Copy|Edit/);
  });
});
