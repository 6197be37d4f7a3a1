import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { answerCall } from '../../src-main/ipc/answer.ts';
import type { OutsideOpening } from '../../src-main/ipc/contract.ts';
import { MOST_OUTSIDE, OUTSIDE_FOLDER, outsideOpenings } from '../../src-main/store/outside-openings.ts';

const opening: OutsideOpening = {
  rimwardOutside: 1,
  name: 'wetlab.png',
  keptAt: '2026-01-31T10:20:30.000Z',
  outline_mm: [
    [0, 2.5],
    [2.5, 0],
    [0, -2.5],
  ],
  target_mm: 5,
  optic_mm: 6,
  marks: {
    ends_px: [
      [10, 20],
      [400, 20],
    ],
    known_mm: 11.7,
    margin_px: [
      [50, 60],
      [70, 60],
      [60, 90],
    ],
    centre_px: null,
  },
};
const JPEG = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);
const photo = (bytes: Uint8Array = JPEG): string => Buffer.from(bytes).toString('base64');

describe('an opening from outside', () => {
  let folder: string;
  const kept = () => outsideOpenings(folder);
  const files = (): string[] =>
    existsSync(join(folder, OUTSIDE_FOLDER)) ? readdirSync(join(folder, OUTSIDE_FOLDER)) : [];
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'outside-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  test('is kept without any photograph unless one is given', async () => {
    const id = await kept().keepOutsideOpening(opening, null);
    expect(files()).toEqual([`outside-${id}.json`]);
    expect(await kept().listOutsideOpenings()).toEqual([
      { id, name: 'wetlab.png', keptAt: opening.keptAt, photoBytes: null },
    ]);
    expect(await kept().loadOutsideOpening(id)).toEqual({ opening, photo: null });
  });

  test('comes back with its photograph byte by byte, newest first, and leaves nothing once removed', async () => {
    const first = await kept().keepOutsideOpening(opening, photo());
    const second = await kept().keepOutsideOpening({ ...opening, keptAt: '2026-02-01T10:20:30.000Z' }, null);
    expect((await kept().listOutsideOpenings()).map(({ id }) => id)).toEqual([second, first]);
    const back = await kept().loadOutsideOpening(first);
    expect(Buffer.from(back.photo ?? '', 'base64')).toEqual(JPEG);
    expect(readFileSync(join(folder, OUTSIDE_FOLDER, `outside-${first}.photo`))).toEqual(JPEG);
    await kept().removeOutsideOpening(first);
    expect(files()).toEqual([`outside-${second}.json`]);
    await expect(kept().loadOutsideOpening(first)).rejects.toThrow(/gone/);
  });

  test('a photograph that a killed program left without its opening is removed at the next look', async () => {
    const id = await kept().keepOutsideOpening(opening, photo());
    rmSync(join(folder, OUTSIDE_FOLDER, `outside-${id}.json`));
    expect(await kept().listOutsideOpenings()).toEqual([]);
    expect(files()).toEqual([]);
  });

  test('one that cannot be read is listed as such and can be removed', async () => {
    const id = await kept().keepOutsideOpening(opening, photo());
    writeFileSync(join(folder, OUTSIDE_FOLDER, `outside-${id}.json`), '{"rimwardOutside": 1, "na');
    expect(await kept().listOutsideOpenings()).toMatchObject([{ id, name: 'Cannot be read any more' }]);
    await expect(kept().loadOutsideOpening(id)).rejects.toThrow(/cannot be read/);
    await kept().removeOutsideOpening(id);
    expect(files()).toEqual([]);
  });

  test.each([
    ['no picture', [opening, photo(Buffer.from('GIF89a and more'))], /JPEG, PNG and WebP/],
    ['an empty one', [opening, ''], /base64/],
    ['too large a one', [opening, photo(Buffer.concat([JPEG, Buffer.alloc(12_000_001)]))], /12 MB/],
    ['a number that is none', [{ ...opening, outline_mm: [[0, Number.NaN]] }, null], /outline_mm/],
    ['a field too many', [{ ...opening, patient: 'x' }, null], /patient/],
  ])('with %s is refused and nothing is written', async (_, args, line) => {
    const reply = await answerCall(kept(), 'keepOutsideOpening', args);
    expect(reply.ok ? '' : reply.problems.join()).toMatch(line);
    expect(files()).toEqual([]);
  });

  test(`more than ${MOST_OUTSIDE} are refused`, async () => {
    for (let count = 0; count < MOST_OUTSIDE; count++) await kept().keepOutsideOpening(opening, null);
    await expect(kept().keepOutsideOpening(opening, null)).rejects.toThrow(/remove one first/);
    expect(files()).toHaveLength(MOST_OUTSIDE);
  });
});
