/** The command line in each language: help, tables, problem lists, and what stays the same in all of them. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { allChecks, HEADLINES, runCheck, SWEEP_MEASURES, sensitivityCases } from '../../physics/index.ts';
import { runCommandLine } from '../../src-main/cli/command-line.ts';
import { commands } from '../../src-main/cli/commands.ts';
import { dumpFault } from '../../src-main/cli/fault-dump.ts';
import { type Environment, languageOfEnvironment, spokenOf } from '../../src-main/cli/language.ts';
import { sensitivityTable } from '../../src-main/cli/sensitivity.ts';
import { digits, padded, table } from '../../src-main/cli/table.ts';
import { reportTable } from '../../src-main/cli/verify.ts';
import { NO_PRINT_BROWSER } from '../../src-main/report/print-browser.ts';
import { phrase, problemLine, toldPhrase } from '../../src-main/words/problem-words.ts';
import { inLanguage, spokenLanguage, t } from '../../src-main/words/words.ts';
import { LANGUAGES, type Language, MESSAGES } from '../../src-renderer/i18n/languages.ts';

const others = LANGUAGES.filter((language) => language !== 'en');
const folder = mkdtempSync(join(tmpdir(), 'cli-languages-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

async function run(args: readonly string[], environment: Environment = {}) {
  let out = '';
  let err = '';
  const output = {
    result: (text: string) => {
      out += text;
    },
    message: (text: string) => {
      err += text;
    },
    messagesToTerminal: false,
  };
  const code = await runCommandLine(args, output, environment);
  return { code, out, err };
}

/** Words that only English has among our languages, as words of their own. */
const ENGLISH =
  /\b(the|with|and|of|that|this|is|are|for|from|into|it|to|at|by|or|one|file|folder|name|value|attempt|hand|which|found|allowed|nothing|lens|tear|year|years|command)\b/i;
/** What stands between blanks and is typed as it stands: options, ids, names of files and of programs. */
const AS_TYPED = /--[a-z]+|\b(rimward|loopback|hold-angle|run-out-margin|holding-limit|sheet-force)\b/g;
const words = (text: string): string => text.replace(AS_TYPED, '');

const spoilt = (): string => {
  const text = readFileSync(join(import.meta.dirname, '../../scenarios/adult-baseline.json'), 'utf8');
  const json = { ...JSON.parse(text), surprise: 1 };
  json.eye = { ...json.eye, age_years: 400 };
  return file('spoilt.json', JSON.stringify(json));
};

const circle = (): string => {
  const points = Array.from({ length: 90 }, (_, at) => [
    2.5 * Math.cos((at * Math.PI) / 45),
    2.5 * Math.sin((at * Math.PI) / 45),
  ]);
  return file('circle.json', JSON.stringify(points));
};

/** An attempt in which nearly everything is of another kind, too long, or missing. */
const SHAPELESS = JSON.stringify({
  rimwardAttempt: 2,
  person: { id: 7, name: '' },
  place: 'kitchen',
  startedAt: 'noon',
  seed: -1,
  modelVersion: 'x'.repeat(5000),
  seal: 'short',
  scenario: 4,
  commands: [[1]],
  surprise: true,
});

describe('which language is spoken', () => {
  test.each<[Environment, Language]>([
    [{}, 'en'],
    [{ LANG: '' }, 'en'],
    [{ LANG: 'C' }, 'en'],
    [{ LANG: 'C.UTF-8' }, 'en'],
    [{ LANG: 'es_ES.UTF-8' }, 'es'],
    [{ LANG: 'es' }, 'es'],
    [{ LANG: 'hi_IN' }, 'hi'],
    [{ LANG: 'es_ES@euro' }, 'es'],
    [{ LANG: 'fr_FR.UTF-8' }, 'en'],
    [{ LANG: 'es_ES.UTF-8', LC_MESSAGES: 'hi_IN.UTF-8' }, 'hi'],
    [{ LANG: 'es_ES.UTF-8', LC_MESSAGES: '' }, 'es'],
    [{ LANG: 'es_ES.UTF-8', LC_MESSAGES: 'hi_IN.UTF-8', LC_ALL: 'C' }, 'en'],
  ])('%j is %s', (environment, language) => {
    expect(languageOfEnvironment(environment)).toBe(language);
  });

  test('--language wins over the environment, wherever it stands and whatever its case', async () => {
    const spanish = { LANG: 'es_ES.UTF-8' };
    expect((await run(['--help'], spanish)).out).toContain('Códigos de salida');
    for (const args of [
      ['--language', 'hi', '--help'],
      ['--help', '--language=HI'],
    ])
      expect((await run(args, spanish)).out).toContain('निकास कोड');
    expect((await run(['eye', '--help', '--language', 'en'], spanish)).out).toContain('where to draw the line');
    expect(spokenLanguage()).toBe('en');
  });

  test('what follows -- is no language of ours', () => {
    const { rest, language } = spokenOf(['opening', '--', '--language', 'es'], {});
    expect([rest, language]).toEqual([['opening', '--', '--language', 'es'], 'en']);
  });

  test.each([
    [['eye', '--age', '5', '--language', 'klingon'], '"klingon"'],
    [['--language=', '--help'], '""'],
    [['eye', '--age', '5', '--language'], 'nada'],
    [['--language', 'xx', '--language', 'yy', 'scenarios'], '"xx"'],
  ])('%j is refused with a list of problems and 2, in the language of the environment', async (args, said) => {
    const { code, out, err } = await run(args, { LANG: 'es_ES.UTF-8' });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(`línea de órdenes: --language: se encontró ${said}, se admite: en, es, hi`);
    expect(err.trim().split('\n')).toHaveLength(args.filter((one) => one.startsWith('--language')).length);
  });
});

describe.each(others)('in %s', (language) => {
  const say = (...args: string[]) => run([...args, '--language', language]);

  test('the help has no line of English left, and all its columns', async () => {
    const english = (await run(['--help'])).out.split('\n');
    const told = (await say('--help')).out.split('\n');
    expect(told).toHaveLength(english.length);
    expect(told.filter((line) => /\p{L}{2}/u.test(line) && english.includes(line))).toEqual([]);
    for (const line of told) expect(words(line)).not.toMatch(ENGLISH);
    for (const { name } of commands) expect(told.some((line) => line.startsWith(`  ${name} `))).toBe(true);
  });

  test.each(commands.map(({ name }) => name))('the help of %s has no English left', async (name) => {
    const english = (await run([name, '--help'])).out.split('\n');
    const { code, out } = await say(name, '--help');
    expect(code).toBe(0);
    const told = out.split('\n');
    expect(told).toHaveLength(english.length);
    // a line that is all options is the same in every language
    const same = told.filter((line) => english.includes(line) && /\p{L}{2}/u.test(line));
    expect(same.filter((line) => !/^ {2}--[a-z]+( en\|es\|hi)?$/.test(line))).toEqual([]);
    for (const line of told) expect(words(line)).not.toMatch(ENGLISH);
  });

  test.each([
    ['opening', () => [circle()]],
    ['eye', () => ['--age', '0.5', '--fluid', 'ha-2.3']],
    ['scenarios', () => []],
  ])('the table of %s has no English left and carries the caution', async (name, args) => {
    const { code, out, err } = await say(name, ...args());
    expect(code).toBe(0);
    // ids are typed as they stand
    const lines = out
      .split('\n')
      .map((line) => line.replace(/^[a-z0-9-]+ {2,}/, '').replace(/[a-z0-9]+(-[a-z0-9]+)+/g, ''));
    for (const line of lines) expect(line).not.toMatch(ENGLISH);
    expect(err).toBe(name === 'scenarios' ? '' : `${MESSAGES[language].common.caution}\n`);
  });

  test('the list of checks has no English left but names of people and journals', async () => {
    const english = (await run(['verify', '--list'])).out.split('\n');
    const { code, out } = await say('verify', '--list');
    // To is a tension
    const told = out.replace(/ 2 L To$/m, '').split('\n');
    expect([code, told.length]).toEqual([0, english.length]);
    for (const line of told) expect(line).not.toMatch(ENGLISH);
  });

  test('a check is told with its known misses, their reasons and the caution', async () => {
    const english = (await run(['verify', '--only', 'B18'])).out.trim().split('\n');
    const { code, out } = await say('verify', '--only', 'B18');
    const told = out.trim().split('\n');
    expect([code, told.length]).toEqual([0, english.length]);
    for (const line of told) expect(line).not.toMatch(ENGLISH);
    expect(told.filter((line) => line !== '' && english.includes(line))).toEqual([]);
    expect(told.at(-1)).toBe(MESSAGES[language].common.caution);
  });

  test('checks that could not be computed say why, and nothing dangles behind them', () => {
    const rows = allChecks()
      .filter(({ name }) => name === 'A16-short' || name === 'C9')
      .flatMap((check) => runCheck(check, { attempts: [], twoNicks: null }));
    const out = inLanguage(language, () => reportTable(rows));
    const { any, 'A16-short': short, C9 } = MESSAGES[language].content.checks;
    const lines = out.split('\n');
    expect(lines.slice(0, 2)).toEqual([
      expect.stringMatching(new RegExp(`^A16-short .* ${any.whole} +-$`)),
      expect.stringMatching(new RegExp(`^C9 .* ${any.whole} +-$`)),
    ]);
    expect(lines.slice(3, 5)).toEqual([
      `A16-short, ${any.whole}: ${short.noAttempt}`,
      `C9, ${any.whole}: ${C9.noNicks}`,
    ]);
    expect(out).not.toMatch(ENGLISH);
  });

  test('counts of numbers that pass, fail and miss have their singular', () => {
    const sums = (count: number) =>
      inLanguage(language, () =>
        (['passed', 'failed', 'missed'] as const).map((key) => t(`terminal.verify.${key}`, { count })),
      );
    expect(sums(1)).toEqual(
      language === 'es'
        ? ['1 número cumple', '1 falla', '1 es un desvío conocido']
        : ['1 अंक सही', '1 ग़लत', '1 ज्ञात चूक'],
    );
    for (const count of [0, 2, 21]) for (const text of sums(count)) expect(text).toMatch(new RegExp(`^${count} `));
  });

  test('a sweep has words above its columns and a unit after each published number', async () => {
    const { code, out } = await say('sweep', '--measure', 'line', '--ages', '2,40', '--jobs', '1');
    expect(code).toBe(0);
    for (const line of out.split('\n')) expect(line).not.toMatch(/_(mm|years|mmHg)\b/);
    for (const line of out.split('\n')) expect(line).not.toMatch(ENGLISH);
    for (const { value } of Object.values(SWEEP_MEASURES))
      expect(Object.keys(MESSAGES.en.content.terminal.sweep.head)).toContain(value);
  });

  test('the table of sensitivity has no English left, and two ends of a range do not run into their decimals', () => {
    const numbers = Object.fromEntries(HEADLINES.map(({ measure }) => [SWEEP_MEASURES[measure].value, 1.5]));
    const rows = sensitivityCases(0.5).map(({ parameter, end, value }) => ({
      parameter: parameter?.label ?? 'the eye as it is',
      unit: parameter?.unit ?? '1',
      tag: parameter?.tag ?? ('' as const),
      end,
      value,
      numbers,
    }));
    const out = inLanguage(language, () => sensitivityTable(0.5, rows));
    const lines = out.trim().split('\n');
    expect(lines).toHaveLength(3 + (rows.length - 1) / 2);
    for (const line of lines) expect(line).not.toMatch(/\bdeg\b/);
    for (const line of lines) expect(line).not.toMatch(ENGLISH);
    expect(out).toContain(language === 'es' ? '| 1,5; 1,5 |' : '| 1.5, 1.5 |');
  });

  test.each([
    ['wrong options', () => ['eye', '--age', '400', '--fluid', 'jam', '--pressure', 'x', '--target', '9']],
    ['an unknown option', () => ['eye', '--age', '5', '--colour', 'blue']],
    ['an option without its value', () => ['eye', '--age']],
    ['too many arguments', () => ['eye', '--age', '5', 'more', 'still']],
    ['no argument', () => ['opening']],
    ['an absent file', () => ['opening', join(folder, 'absent.json')]],
    ['a folder', () => ['opening', folder]],
    ['an unknown scenario', () => ['run', 'none-such', '--seed', '1.5', '--out', join(folder, 'no', 'x.json')]],
    ['a spoilt scenario', () => ['scenarios', '--check', spoilt()]],
    ['a later version', () => ['scenarios', '--check', file('later.json', '{"rimwardScenario": 99}')]],
    ['no JSON', () => ['scenarios', '--check', file('cut.json', '')]],
    ['a line of an outline', () => ['opening', file('line.csv', 'x,y\n1,0\n0,one\n')]],
    ['a wrong attempt', () => ['replay', file('attempt.rimward', '{}')]],
    ['the shape of an attempt', () => ['replay', file('shape.rimward', SHAPELESS)]],
    ['no logbook', () => ['replay', '11111111-1111-4111-8111-111111111111', '--data', folder]],
    ['half a report', () => ['report', '--person', 'Ada', '--out', 'x.doc']],
    ['a wrong port', () => ['serve', '--port', '80']],
    ['wrong ages', () => ['sweep', '--measure', 'line', '--ages', '1,x']],
    ['a wrong case', () => ['bench', '--only', '99', '--finer', '0.5']],
    ['a wrong finer', () => ['bench', '--finer', '9']],
  ])('what is wrong is told without English, a line each: %s', async (_, args) => {
    const english = await run(args());
    const { code, out, err } = await say(...args());
    expect([code, out, english.code]).toEqual([2, '', 2]);
    expect(err.trim().split('\n')).toHaveLength(english.err.trim().split('\n').length);
    for (const line of err.trim().split('\n')) {
      // paths, ids and what was typed stand as they are
      const own = words(
        line
          .replaceAll(folder, '')
          .replace(/"[^"]*"/g, '')
          .replace(/[a-z0-9]+(-[a-z0-9]+)+/g, ''),
      );
      expect(own.replace(/^.*?: (?=se encontró|मिला)/, '')).not.toMatch(ENGLISH);
    }
  });

  test('every phrase is told again from its own English text, and none twice', () => {
    const { phrases } = MESSAGES.en.content.terminal;
    const fill = (text: string) =>
      text
        .replace(/\{\{(limit|from|to|most)\}\}/g, '7')
        .replace(/\{\{(unit|kind|given)\}\}/g, 'mN')
        .replace('{{field}}', 'a.b')
        .replace('{{text}}', '"q"');
    inLanguage(language, () => {
      for (const [key, text] of Object.entries(phrases))
        expect(toldPhrase(fill(text)), key).toBe(
          fill(MESSAGES[language].content.terminal.phrases[key as keyof typeof phrases]),
        );
    });
    const keys = Object.keys(phrases);
    expect(keys.filter((key) => Object.hasOwn(MESSAGES.en.common.judged, key))).toEqual([]);
  });

  test('a fault of ours is told, and its dump says the same as in English', () => {
    const line = inLanguage(language, () => dumpFault(['eye'], new Error('made for this test'), folder));
    expect(line).toContain('made for this test');
    expect(line).not.toContain('A fault of ours');
  });

  test('JSON is the same to the last letter, problems in it too', async () => {
    for (const args of [
      ['scenarios'],
      ['eye', '--age', '3'],
      ['opening', circle()],
      ['verify', '--list'],
      ['verify', '--only', 'A12'],
      ['sweep', '--measure', 'line', '--ages', '2,40', '--jobs', '1'],
      ['scenarios', '--check', spoilt()],
      ['scenarios', '--check', 'none-such'],
    ]) {
      const english = await run([...args, '--json']);
      const told = await say(...args, '--json');
      expect(english.out.length).toBeGreaterThan(50);
      expect([told.code, told.out]).toEqual([english.code, english.out]);
    }
  });
});

describe('a spoilt scenario file', () => {
  test('is told in Spanish by the sentences of the page', async () => {
    const { code, err } = await run(['scenarios', '--check', spoilt()], { LANG: 'es_ES.UTF-8' });
    expect(code).toBe(2);
    expect(err).toContain('surprise: se encontró una clave desconocida, se admite: solo las claves del esquema');
    expect(err).toMatch(/eye\.age_years: se encontró 400, se admite: como máximo \d+/);
  });
});

describe('without a language', () => {
  test('a problem is the line that it always was', () => {
    const problem = { file: 'f.json', path: 'eye.age_years', found: '400', allowed: 'at most 95' };
    expect(problemLine(problem)).toBe('f.json: eye.age_years: found 400, allowed: at most 95');
    expect(problemLine({ ...problem, path: '' })).toBe('f.json: found 400, allowed: at most 95');
  });

  test('the phrase about printing is the one that the program says', () => {
    expect(phrase('printBrowser')).toBe(NO_PRINT_BROWSER);
  });
});

describe('tables', () => {
  test('align what is drawn: vowel signs above and below a letter take no column', () => {
    // two letters, one of them with a sign below it
    expect(padded('कुल', 4)).toBe('कुल  ');
    const [first, second] = table([
      ['कु', 'x'],
      ['कुल', 'y'],
    ]).split('\n');
    expect([first, second]).toEqual(['कु   x', 'कुल  y']);
    expect(
      table([
        ['a', 'b'],
        ['ccc', 'd'],
      ]),
    ).toBe('a    b\nccc  d\n');
  });

  test('write digits as the language does and leave exponents alone', () => {
    expect(inLanguage('es', () => [digits('-1.50'), digits('1e-7'), digits('12')])).toEqual(['−1,50', '1e-7', '12']);
    expect(inLanguage('hi', () => digits('2.5'))).toBe('2.5');
    expect(digits('-1.50')).toBe('-1.50');
  });
});
