import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { dumpFault } from '../../src-main/cli/fault-dump.ts';
import { commandLine as rimward } from '../support/command-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'cli-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string | Buffer): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const circle = (radius: number, n = 360): number[][] =>
  Array.from({ length: n }, (_, at) => [
    radius * Math.cos((2 * Math.PI * at) / n),
    radius * Math.sin((2 * Math.PI * at) / n),
  ]);

/** No line that is not a number may look like one. */
const noNaN = (text: string): void => expect(text).not.toMatch(/NaN|Infinity|undefined/);

describe('arguments', () => {
  test('no command at all prints the help to standard error and exits 2', async () => {
    const { code, out, err } = await rimward();
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('not for planning surgery');
  });

  test('help is a result', async () => {
    for (const args of [['--help'], ['help'], ['eye', '--help']]) {
      const { code, out, err } = await rimward(...args);
      expect([code, err]).toEqual([0, '']);
      expect(out).toContain('rimward');
    }
  });

  test.each([
    [['frobnicate'], 'frobnicate'],
    [['eye', '--age', '5', '--colour', 'blue'], '--colour'],
    [['eye'], '--age'],
    [['eye', '--age', '400'], '400'],
    [['eye', '--age', '-1'], 'age'],
    [['eye', '--age', 'NaN'], 'NaN'],
    [['eye', '--age', ''], '--age'],
    [['eye', '--age', '5', '--fluid', 'jam'], 'jam'],
    [['eye', '--age', '0.5', '--target', '7.9'], 'zonule-free'],
    [['eye', '--age', '5', 'more'], '1 argument'],
    [['opening'], '0 arguments'],
    [['serve', '--port', '80'], '80'],
    [['serve', '--port', '70000'], '70000'],
  ])('%j exits 2, says why, and gives no result', async (args, said) => {
    const { code, out, err } = await rimward(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(said);
    expect(
      err
        .trim()
        .split('\n')
        .every((line) => line.includes('found')),
    ).toBe(true);
  });

  test('all wrong options are told at once', async () => {
    const { err } = await rimward('eye', '--age', '400', '--fluid', 'jam', '--pressure', 'x');
    expect(err.trim().split('\n')).toHaveLength(3);
  });
});

describe('opening', () => {
  test('a circle of 5 mm as JSON, as points and as CSV gives its diameter', async () => {
    const points = circle(2.5);
    const rows = points.map(([x, y]) => `${x},${y}`).join('\n');
    const names = [
      file('list.json', JSON.stringify(points)),
      file('points.json', JSON.stringify({ points })),
      file('bare.csv', rows),
      file('headed.csv', `\uFEFFx_mm,y_mm\r\n${rows.replaceAll('\n', '\r\n')}\r\n`),
      file('semicolons.csv', rows.replaceAll(',', ';')),
    ];
    for (const name of names) {
      const { code, out } = await rimward('opening', name, '--json');
      expect(code).toBe(0);
      const { opening, caution } = JSON.parse(out);
      // A regular polygon of 360 corners has an area 5e-5 below the circle's.
      expect(Math.abs(opening.equivalentDiameter_mm - 5)).toBeLessThan(3e-4);
      expect(caution).toContain('not for planning surgery');
    }
  });

  test('a readable table goes to standard output, the caution to standard error', async () => {
    const { code, out, err } = await rimward('opening', file('table.json', JSON.stringify(circle(2.5))));
    expect(code).toBe(0);
    expect(out).toMatch(/equivalent diameter\s+5\.00\s+mm/);
    expect(err).toContain('not for planning surgery');
    noNaN(out);
  });

  test('target, optic and centre are used', async () => {
    const moved = circle(2).map(([x, y]) => [x + 1, y]);
    const { out } = await rimward(
      'opening',
      file('moved.json', JSON.stringify(moved)),
      '--json',
      '--target',
      '4',
      '--centre',
      '1,0',
      '--optic',
      '5',
    );
    const { opening } = JSON.parse(out);
    expect(opening.centroidDistance_mm).toBeLessThan(1e-6);
    expect(opening.rmsDeviation_mm).toBeLessThan(1e-3);
    expect(Math.abs(opening.opticOverlapSmallest_mm - 0.5)).toBeLessThan(1e-3);
  });

  const bad: readonly (readonly [string, string | Buffer, string])[] = [
    ['cut.json', '[[1,0],[0,', 'no JSON'],
    ['nan.json', '[[1,0],[0,NaN],[2,2]]', 'no JSON'],
    ['text.json', '{"points": "many"}', '{"points'],
    ['key.json', '{"points": [[1,0],[0,1],[1,1]], "unit": "px"}', 'unit'],
    ['triple.json', '[[1,0,0],[0,1],[1,1]]', '[0]'],
    ['null.json', '[[1,null],[0,1],[1,1]]', '[0]'],
    ['two.json', '[[1,0],[0,1]]', 'at least 3'],
    ['pixels.json', '[[100,0],[0,100],[-100,0]]', 'mm'],
    ['crossing.json', '[[0,0],[2,2],[2,0],[0,2]]', 'cross'],
    ['line.csv', 'x,y\n1,0\n0,one\n', 'line 3'],
    ['cells.csv', '1,0,4\n0,1\n', 'line 1'],
    ['hex.csv', '0x10,1\n1,1\n0,1\n', 'line 1'],
    ['infinite.csv', '1e999,1\n1,1\n0,1\n', 'line 1'],
    ['empty.csv', '', 'points'],
    ['binary.csv', Buffer.from([0xff, 0xfe, 0x00, 0xd8]), 'UTF-8'],
    ['many.csv', '1,1\n'.repeat(30_000), 'at most'],
  ];

  test.each(bad)('%s is refused with its place', async (name, text, said) => {
    const path = file(name, text);
    const { code, out, err } = await rimward('opening', path, '--json');
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(name);
    expect(err).toContain(said);
  });

  test('an absent file, a folder, and a file over 20 MB are refused', async () => {
    for (const path of [join(folder, 'absent.json'), folder, file('large.csv', Buffer.alloc(20_000_001, 0x20))]) {
      const { code, out, err } = await rimward('opening', path);
      expect([code, out]).toEqual([2, '']);
      expect(err).toContain(path);
    }
  });
});

describe('eye', () => {
  test.each(['0', '0.5', '6', '40', '95'])(
    'at %s years every value is finite, with unit, tag, range and source',
    async (age) => {
      const { code, out } = await rimward(
        'eye',
        '--age',
        age,
        '--pressure',
        '4',
        '--fluid',
        'ha-2.3',
        '--dye',
        '--json',
      );
      expect(code).toBe(0);
      noNaN(out);
      const { parameters, line, caution } = JSON.parse(out);
      expect(parameters.length).toBeGreaterThan(8);
      for (const { value, unit, tag, range, source } of parameters) {
        expect(Number.isFinite(value)).toBe(true);
        expect(unit).toBeTypeOf('string');
        expect(['measured', 'derived', 'assumed']).toContain(tag);
        expect(range[0]).toBeLessThanOrEqual(range[1]);
        expect(source.length).toBeGreaterThan(3);
      }
      expect(line.lineDiameter_mm * line.enlargement).toBeCloseTo(line.targetDiameter_mm, 6);
      expect(caution).toContain('not for planning surgery');
    },
  );

  test('the dye lowers the tear resistance and nothing else', async () => {
    const values = async (...more: string[]): Promise<Record<string, number>> => {
      const { parameters } = JSON.parse((await rimward('eye', '--age', '4', '--json', ...more)).out);
      return Object.fromEntries(parameters.map(({ key, value }: { key: string; value: number }) => [key, value]));
    };
    const plain = await values();
    const dyed = await values('--dye');
    expect(dyed.tearResistance_mN).toBeLessThan(plain.tearResistance_mN);
    expect({ ...dyed, tearResistance_mN: 0 }).toEqual({ ...plain, tearResistance_mN: 0 });
  });
});

describe('scenarios', () => {
  test('what ships is listed and has no problems', async () => {
    const { code, out } = await rimward('scenarios', '--json');
    expect(code).toBe(0);
    const { scenarios, hands } = JSON.parse(out);
    expect(scenarios.map(({ id }: { id: string }) => id)).toContain('infant-thick-fluid');
    for (const { title, problems } of [...scenarios, ...hands]) {
      expect(problems).toEqual([]);
      expect(title.length).toBeGreaterThan(5);
    }
  });

  test('a good file passes; a spoilt one exits 2 with one line per problem', async () => {
    const text = readFileSync(join(import.meta.dirname, '../../scenarios/adult-baseline.json'), 'utf8');
    expect((await rimward('scenarios', '--check', file('good.json', text))).code).toBe(0);
    const spoilt = { ...JSON.parse(text), surprise: 1 };
    spoilt.eye = { ...spoilt.eye, age_years: 400 };
    const { code, out, err } = await rimward(
      'scenarios',
      '--check',
      file('spoilt.json', JSON.stringify(spoilt)),
      '--json',
    );
    expect(code).toBe(2);
    expect(JSON.parse(out).problems.length).toBeGreaterThanOrEqual(2);
    expect(err).toContain('eye.age_years');
    expect(err).toContain('surprise');
  });

  test.each([
    ['cut short', '{"rimwardScenario": 1, "id'],
    ['a later version', '{"rimwardScenario": 99}'],
    ['a list', '[]'],
    ['nothing', ''],
  ])('%s is refused', async (title, text) => {
    const { code, err } = await rimward('scenarios', '--check', file(`${title.replaceAll(' ', '-')}.json`, text));
    expect(code).toBe(2);
    expect(err.length).toBeGreaterThan(10);
  });
});

describe('a fault of ours', () => {
  test('is dumped with its arguments and the files they name', () => {
    const input = file('input.json', '{"seen": true}');
    const line = dumpFault(['opening', input], new Error('made for this test'), folder);
    const name = readdirSync(folder).find((one) => one.startsWith('rimward-dump-'));
    expect(line).toContain(name);
    const dump = JSON.parse(readFileSync(join(folder, name ?? ''), 'utf8'));
    expect(dump.args).toEqual(['opening', input]);
    expect(dump.inputs[input]).toBe('{"seen": true}');
    expect(dump.stack).toContain('made for this test');
  });

  test('a dump that cannot be written is said, not thrown', () => {
    expect(dumpFault([], 'thrown text', join(folder, 'no', 'such', 'folder'))).toContain('could not be written');
  });
});
