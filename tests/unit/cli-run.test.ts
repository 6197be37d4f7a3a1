import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { type AttemptResult, formatProblem, type Hand, type Scenario } from '../../physics/index.ts';
import { createRun, type HandRunOptions, type RunHand } from '../../src-main/cli/run.ts';

const folder = mkdtempSync(join(tmpdir(), 'run-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** No physics here: what is tested is what the command hands over and gives back. */
const seen: { scenario: Scenario; hand: Hand; options: HandRunOptions }[] = [];
const result = {
  scenario: 'x',
  hand: 'y',
  seed: 1,
  modelVersion: 'none',
  ended: 'open',
  opening: null,
  work: { grasps: 3 },
  graded: [{ metric: 'grasps', value: 3, met: false, reason: 'number of grasps is 3, at most 2 allowed' }],
  passed: false,
  tears: [],
  outline_mm: null,
  events: [],
  steps: 120,
  digest: 'd',
  energyMismatch: 0.01,
  caution: 'caution',
} as unknown as AttemptResult;

const runHand: RunHand = (scenario, hand, options) => {
  seen.push({ scenario, hand, options });
  options.onProgress?.(0.5);
  return result;
};

async function call(
  command: ReturnType<typeof createRun>,
  positionals: string[],
  options: Record<string, string>,
  json = true,
) {
  let out = '';
  let err = '';
  const answer = await command.run({
    positionals,
    options,
    json,
    output: {
      result: (text) => {
        out += text;
      },
      message: (text) => {
        err += text;
      },
      messagesToTerminal: false,
    },
  });
  return {
    code: typeof answer === 'number' ? answer : 2,
    problems: typeof answer === 'number' ? [] : answer,
    out,
    err,
  };
}

const run = createRun(runHand);

describe('run', () => {
  test('a shipped eye and hand are played with the seed of the scenario, or the one that was asked for', async () => {
    const own = await call(run, ['infant-thick-fluid'], { hand: 'infant-thick-holding' });
    expect(own.code).toBe(0);
    expect(JSON.parse(own.out)).toEqual(JSON.parse(JSON.stringify(result)));
    expect(seen.at(-1)?.scenario.id).toBe('infant-thick-fluid');
    expect(seen.at(-1)?.options.seed).toBe(seen.at(-1)?.scenario.seed);
    await call(run, ['infant-thick-fluid'], { hand: 'infant-thick-holding', seed: '77' });
    expect(seen.at(-1)?.options.seed).toBe(77);
  });

  test('--out writes the same result to a file', async () => {
    const out = join(folder, 'result.json');
    const { code } = await call(run, ['adult-baseline'], { hand: 'adult-holding', out });
    expect(code).toBe(0);
    expect(JSON.parse(readFileSync(out, 'utf8')).digest).toBe('d');
  });

  test('the table says how it ended, what was missed and why, and no progress bar goes to a file', async () => {
    const { out, err } = await call(run, ['adult-baseline'], { hand: 'adult-holding' }, false);
    expect(out).toMatch(/ended\s+open/);
    expect(out).toContain('MISSED');
    expect(out).not.toMatch(/NaN|undefined/);
    expect(err).not.toContain('\r');
    expect(err).toContain('not for planning surgery');
  });

  const file = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };

  const track = (changed: object): string =>
    JSON.stringify({
      rimwardHand: 1,
      kind: 'track',
      id: 'test',
      title: 'test',
      samples: [{ t_s: 0, x_mm: 0, y_mm: 0, lift_mm: 1, jaws: 0, instrument: 'forceps', incision: 0, ...changed }],
    });

  test.each([
    ['no hand', ['adult-baseline'], {}, '--hand'],
    ['an unknown eye', ['nobody'], { hand: 'adult-holding' }, 'adult-baseline'],
    ['an unknown hand', ['adult-baseline'], { hand: 'nobody' }, 'adult-holding'],
    ['a seed that is none', ['adult-baseline'], { hand: 'adult-holding', seed: '-1' }, '--seed'],
    ['a folder that is none', ['adult-baseline'], { hand: 'adult-holding', out: '/no/such/folder/x' }, '--out'],
    ['a cut hand', ['adult-baseline'], { hand: file('cut.json', '{"rimwardHand": 1,') }, 'cut.json'],
    [
      'a hand of a later version',
      ['adult-baseline'],
      { hand: file('later.json', '{"rimwardHand": 9}') },
      'rimwardHand',
    ],
    ['a hand with an unknown key', ['adult-baseline'], { hand: file('key.json', track({ wish: 1 })) }, 'wish'],
    ['a hand that is not anywhere', ['adult-baseline'], { hand: file('null.json', track({ x_mm: null })) }, 'x_mm'],
    [
      'a hand in an incision there is not',
      ['adult-baseline'],
      { hand: file('nine.json', track({ incision: 9 })) },
      'incision',
    ],
  ] as [string, string[], Record<string, string>, string][])(
    '%s: nothing is run, exit 2',
    async (_title, names, options, said) => {
      const before = seen.length;
      const { code, problems, out } = await call(run, names, options);
      expect([code, out, seen.length]).toEqual([2, '', before]);
      expect(problems.map(formatProblem).join('\n')).toContain(said);
    },
  );
});
