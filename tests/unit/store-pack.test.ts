import { deflateSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { HandCommand } from '../../physics/index.ts';
import { packCommands, Unpackable, unpackCommands } from '../../src-main/store/pack-commands.ts';
import { madeCommands } from '../support/made-attempts.ts';

const anyNumber = fc.double({ noNaN: true, noDefaultInfinity: true });
const asRounded = fc.integer({ min: -200_000, max: 200_000 }).map((whole) => Math.round(whole) / 1e4);
const command = (number: fc.Arbitrary<number>): fc.Arbitrary<HandCommand> =>
  fc.record({
    x_mm: number,
    y_mm: number,
    lift_mm: number,
    jaws: fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1, 0.5, -0)),
    instrument: fc.constantFrom('forceps', 'needle', 'cannula'),
    incision: fc.integer({ min: 0, max: 15 }),
  });

/** `toEqual` takes 0 and -0 for the same; these must be the same bits. */
function expectSameBits(found: readonly HandCommand[], wanted: readonly HandCommand[]): void {
  expect(found.length).toBe(wanted.length);
  for (const [k, one] of wanted.entries()) {
    for (const [key, value] of Object.entries(one)) {
      const other = found[k][key as keyof HandCommand];
      if (!Object.is(other, value)) throw new Error(`step ${k}, ${key}: ${value} came back as ${other}`);
    }
  }
}

describe('packed commands', () => {
  test('any finite numbers come back to the bit', () => {
    const streams = fc.oneof(
      fc.array(command(anyNumber), { maxLength: 60 }),
      fc.array(command(asRounded), { maxLength: 60 }),
      fc.array(command(fc.constantFrom(0, -0, 1e-4, -1e-4, 20, 5e-324, 1.7e308)), { maxLength: 60 }),
    );
    fc.assert(
      fc.property(streams, (commands) => expectSameBits(unpackCommands(packCommands(commands)), commands)),
      { numRuns: 600 },
    );
  });

  test('the comparison above tells a negative zero from a zero', () => {
    const [one] = madeCommands(1);
    expect(() => expectSameBits([{ ...one, x_mm: -0 }], [{ ...one, x_mm: 0 }])).toThrow('step 0, x_mm');
  });

  test('a rounded hand takes a few bytes a step', () => {
    const commands = madeCommands(2000);
    const packed = packCommands(commands);
    console.log(`2,000 steps: ${packed.length} bytes packed, ${JSON.stringify(commands).length} as JSON`);
    expect(packed.length).toBeLessThan(2000 * 8);
    expectSameBits(unpackCommands(packed), commands);
  });

  test('bytes that are no commands are refused, and nothing else happens', () => {
    const packed = packCommands(madeCommands(40));
    const refused = (bytes: Uint8Array): boolean => {
      try {
        unpackCommands(bytes);
        return false;
      } catch (fault) {
        if (!(fault instanceof Unpackable)) throw fault;
        return true;
      }
    };
    for (let length = 0; length < packed.length; length++) expect(refused(packed.subarray(0, length))).toBe(true);
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        expect(refused(bytes)).toBe(true);
      }),
    );
    // Well deflated nonsense reaches the reader behind the inflating.
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        refused(deflateSync(Uint8Array.from([1, ...bytes])));
      }),
      { numRuns: 500 },
    );
    expect(refused(deflateSync(Buffer.alloc(200_000_000)))).toBe(true);
    const jawsTooWide = packCommands([{ ...madeCommands(1)[0], jaws: 2 }]);
    const notFinite = packCommands([{ ...madeCommands(1)[0], x_mm: Number.NaN }]);
    expect([refused(jawsTooWide), refused(notFinite)]).toEqual([true, true]);
  });
});
