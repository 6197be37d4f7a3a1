import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createRandom } from '../../physics/core/random.ts';
import { readAttemptFile } from '../../src-main/cli/attempt-file.ts';
import { sealOf, sha256 } from '../../src-main/store/seal.ts';
import { commandLine } from '../support/command-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'replay-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A hand that comes to the flap, takes it and pulls for a second: short, and it tears. */
const pull = [
  [0, -2.2, 0.9, 1, 0],
  [0.5, -2.2, 0.9, 0, 0],
  [0.7, -2.2, 0.9, 0, 1],
  [1.7, -2.2, -0.4, 0.2, 1],
].map(([t_s, x_mm, y_mm, lift_mm, jaws]) => ({ t_s, x_mm, y_mm, lift_mm, jaws, instrument: 'forceps', incision: 0 }));

const kept = join(folder, 'kept.rimward');
let text = '';
beforeAll(async () => {
  const hand = join(folder, 'pull.json');
  writeFileSync(hand, JSON.stringify({ rimwardHand: 1, kind: 'track', id: 'pull', title: 'Pull', samples: pull }));
  const { code, out } = await commandLine('run', 'infant-thin-fluid', '--hand', hand, '--keep', kept, '--json');
  expect(code).toBe(0);
  expect(JSON.parse(out).hand).toBe('pull');
  text = readFileSync(kept, 'utf8');
});

const write = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

/** The same attempt with something changed and, as a clever hand would, sealed again. */
function sealedAgain(change: (attempt: Record<string, never>) => void): string {
  const json = JSON.parse(text);
  change(json);
  const commands = json.commands.map(([x_mm, y_mm, lift_mm, jaws, instrument, incision]: never[]) => ({
    ...{ x_mm, y_mm, lift_mm, jaws, instrument, incision },
  }));
  const seal = sealOf({ ...json, commands, personId: json.person.id });
  const lines = text.split('\n').slice(0, -2);
  const part = (key: string) => lines.findIndex((line) => line.startsWith(`"${key}":`));
  lines[part('seal')] = `"seal":"${seal}",`;
  lines[part('seed')] = `"seed":${json.seed},`;
  lines[part('result')] = lines[part('result')].replace(/"digest":"\w+"/, `"digest":"${json.result.digest}"`);
  const rows = lines.slice(0, part('commands') + 1);
  const body = `${[...rows, json.commands.map((row: unknown) => JSON.stringify(row)).join(',\n')].join('\n')}],`;
  return `${body}\n"fileDigest":"${sha256(body)}"}\n`;
}

describe('replay', () => {
  test.each([
    ['en', 'Command line'],
    ['es', 'Línea de órdenes'],
    ['hi', 'आदेश-पंक्ति'],
  ])('in %s says that the command line played, not a person; JSON has it as it is kept', async (language, player) => {
    const { code, out } = await commandLine('replay', kept, '--language', language);
    expect([code, out.includes(player)]).toEqual([0, true]);
    const page = (await commandLine('report', kept, '--language', language)).out;
    expect([page.includes(player), page.includes('Command line')]).toEqual([true, language === 'en']);
    const json = await commandLine('replay', kept, '--json', '--language', language);
    expect(JSON.parse(json.out).person).toBe('Command line');
  });

  test('a kept attempt plays again to the same result, to the last bit, and its seal fits', async () => {
    const { code, out } = await commandLine('replay', kept, '--json');
    expect(code).toBe(0);
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({ same: true, firstDifference: null, seal: 'fits', scenario: 'infant-thin-fluid' });
    expect(answer.replayed).toEqual(answer.stored);
    expect(answer.commands).toBe(answer.replayed.steps);
    expect(out).not.toMatch(/NaN|undefined/);
  });

  test('what was sealed again after a command was moved by a thousandth of a millimetre is different', async () => {
    const moved = sealedAgain((json) => {
      (json.commands as number[][])[60][0] += 0.001;
    });
    const path = write('moved.rimward', moved);
    const { code, out } = await commandLine('replay', path, '--json');
    expect(code).toBe(1);
    const { same, seal, firstDifference } = JSON.parse(out);
    expect([same, seal, firstDifference.path]).toEqual([false, 'fits', 'digest']);
    const table = await commandLine('replay', path);
    expect(table.out).toMatch(/played again\s+DIFFERENT/);
    expect(table.out).toMatch(/first difference\s+digest: stored "\w+", played again "\w+"/);
    expect(table.err).toContain('not for planning surgery');
  });

  test('an untouched attempt that is sealed again by the test is the file itself', () => {
    expect(sealedAgain(() => undefined)).toBe(text);
  });

  test('a digest that was made up is told as the first difference', async () => {
    const made = sealedAgain((json) => {
      (json.result as { digest: string }).digest = '0123456789abcdef';
    });
    const { code, out } = await commandLine('replay', write('made.rimward', made), '--json');
    expect([code, JSON.parse(out).firstDifference]).toEqual([
      1,
      { path: 'digest', stored: '"0123456789abcdef"', replayed: `"${JSON.parse(text).result.digest}"` },
    ]);
  });

  test('a broken seal makes the answer no, even where the opening is the same', async () => {
    const renamed = write('renamed.rimward', text.replace('"name":"Command line"', '"name":"Somebody else"'));
    const { code, out } = await commandLine('replay', renamed, '--json');
    expect([code, JSON.parse(out).same, JSON.parse(out).seal]).toEqual([1, true, 'broken']);
  });

  test.each([
    ['no such file', () => join(folder, 'nowhere.rimward'), 'no such file'],
    ['not JSON', () => write('text.rimward', 'hello'), 'no JSON'],
    ['cut short', () => write('cut.rimward', text.slice(0, text.length / 2)), 'no JSON'],
    ['no attempt', () => write('other.rimward', '{"rimwardHand":1}'), 'no rimwardAttempt'],
    ['a later version', () => write('later.rimward', text.replace('Attempt":2', 'Attempt":9')), 'version 9'],
    ['a command that is no number', () => write('null.rimward', text.replace(/\[-2\.2,/, '[null,')), 'commands'],
    ['an impossible eye', () => write('eye.rimward', text.replace('"age_years":', '"age_years":-')), 'age_years'],
    ['two seeds', () => write('seed.rimward', text.replace(/"seed":(\d+),\n/, '"seed":99,\n')), 'result.seed'],
  ])('%s: exit 2 and a problem that says so', async (_title, path, said) => {
    const { code, out, err } = await commandLine('replay', path(), '--json');
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(said);
    expect(err).toMatch(/found .*, allowed: /);
  });

  test('an id is looked up in the folder that was named, which is not made by looking', async () => {
    const id = '01234567-89ab-4def-8123-456789abcdef';
    const { code, err } = await commandLine('replay', id, '--data', join(folder, 'empty'));
    expect(code).toBe(2);
    expect(err).toContain('rimward.sqlite');
  });

  test('help says what an attempt is', async () => {
    const { code, out } = await commandLine('replay', '--help');
    expect(code).toBe(0);
    expect(out).toContain('--data <value>');
    expect(out).toContain('a file, or its id in the logbook');
  });
});

describe('a changed byte', () => {
  test('shows wherever it is: 400 places over the file, one bit or another byte', () => {
    const bytes = Buffer.from(text);
    const seed = 20_261_125;
    const { uniform } = createRandom(seed);
    const unseen: string[] = [];
    for (let place = 0; place < 400; place++) {
      // Even over the file, so that every part of it is met.
      const at = Math.floor(((place + uniform()) / 400) * bytes.length);
      const changed = Buffer.from(bytes);
      changed[at] ^= place % 2 === 0 ? 1 << Math.floor(8 * uniform()) : 1 + Math.floor(255 * uniform());
      let read: ReturnType<typeof readAttemptFile> | null = null;
      try {
        read = readAttemptFile(new TextDecoder('utf-8', { fatal: true }).decode(changed), 'changed');
      } catch (fault) {
        // Bytes that are no UTF-8 are refused before they get here.
        expect((fault as NodeJS.ErrnoException).code).toBe('ERR_ENCODING_INVALID_ENCODED_DATA');
      }
      if (read?.ok && read.value.seal !== 'broken') unseen.push(`byte ${at}, seed ${seed}`);
    }
    expect(unseen).toEqual([]);
    expect(readAttemptFile(text, 'whole')).toMatchObject({ ok: true, value: { seal: 'fits' } });
  });

  test('shows in white space and in the order of keys, which JSON does not care for', () => {
    for (const changed of [
      text.replace('{"rim', '{ "rim'),
      `${text}\n`,
      text.trimEnd(),
      text.replaceAll('\n', '\r\n'),
    ]) {
      expect(readAttemptFile(changed, 'changed')).toMatchObject({ ok: true, value: { seal: 'broken' } });
    }
  });
});
