import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../support/compare.ts';
import { deckDigest, type KeptAnswer, SOLVER_CASES } from '../../support/solver-cases.ts';
import { readEnergy, readHoleStretch } from '../../support/solver-ccx.ts';
import { linearSlitDeck, readNumber } from '../../support/solver-freefem.ts';
import type { FlatMesh } from '../../support/solver-mesh.ts';
import { installedVersion, type Program, runSolver } from '../../support/solver-run.ts';

const kept: readonly KeptAnswer[] = JSON.parse(readFileSync(join(import.meta.dirname, 'answers.json'), 'utf8'));
const PROGRAMS: readonly Program[] = ['FreeFem++', 'CalculiX'];
/** Energies come with seven digits, and a slit's is compared over a small change of its length. */
const REPEATED: Readonly<Record<Program, number>> = { 'FreeFem++': 1e-8, CalculiX: 1e-3 };

const keptOf = (name: string, program: Program): KeptAnswer => {
  const found = kept.find((one) => one.name === name && one.program === program);
  if (found === undefined) throw new Error(`no answer is kept of ${name} by ${program}`);
  return found;
};

describe('answers that other solvers gave', () => {
  it('are kept of every case and of nothing else, each with what made it', () => {
    expect(kept.map(({ name, program }) => [program, name])).toEqual(
      SOLVER_CASES.map(({ name, program }) => [program, name]),
    );
    for (const { version, command } of kept) {
      expect(version).toMatch(/^\d/);
      expect(command).toMatch(/^(FreeFem\+\+-nw -v 0 -ne \S+\.edp|ccx -i job)$/);
    }
  });

  for (const { name, program, decks, ours, allowed, outside } of SOLVER_CASES)
    it(`${program}, ${name}: of the deck as it is, and ours beside it`, () => {
      const { answer, deck } = keptOf(name, program);
      expect(deckDigest(decks())).toBe(deck);
      expectWithin(name, ours(), answer, { relative: allowed });
      if (outside)
        expectWithin(`${program} against ${outside.source}`, answer, outside.value, { relative: outside.allowed });
    });
});

describe('the other solvers, where they are installed', () => {
  for (const program of PROGRAMS) {
    const version = installedVersion(program);
    for (const { name, decks, answer } of SOLVER_CASES.filter((one) => one.live && one.program === program)) {
      const title = `${program}, ${name}: gives the kept answer again`;
      if (version === null) it.skip(`${title} (${program} is not installed)`, () => {});
      else
        it(title, { timeout: 300_000 }, () => {
          const again = answer(decks().map((deck) => runSolver(program, deck)));
          expectWithin(name, again, keptOf(name, program).answer, { relative: REPEATED[program] });
        });
    }
    if (version !== null)
      it(`${program}: a deck it cannot read is a failure, not an answer`, { timeout: 60_000 }, () => {
        const name = program === 'CalculiX' ? 'other.inp' : 'broken.edp';
        expect(() => runSolver(program, { files: [[name, 'not a deck\n']] })).toThrow(program);
      });
  }
});

describe('reading what a solver wrote', () => {
  const square: FlatMesh = { place: [], triangle: [], edge: [], from: new Int32Array(0) };

  it('refuses an answer that is not there', () => {
    expect(() => readNumber('not at rest: 0.1\n')).toThrow('no number');
    expect(() => readNumber('tip force nan\n')).toThrow('no number');
    expect(readNumber('hole stretch 1.25\n\n')).toBe(1.25);
    expect(() => readEnergy('')).toThrow('no total internal energy');
    expect(() => readHoleStretch(square, 'displacements (vx,vy,vz)\n\n')).toThrow('no displacements');
  });

  it('writes decks whose digest tells them apart', () => {
    const deck = (order: 1 | 2) => [linearSlitDeck(square, 0.1, 0.2, order)];
    expect(deckDigest(deck(1))).not.toBe(deckDigest(deck(2)));
  });
});
