/**
 * Runs every case through its solver and keeps the answers beside this file, with the command and the version that gave them:
 * npx node tests/verification/independent/make-answers.ts [words that the cases' names hold]
 * Needs `apt-get install -y --no-install-recommends calculix-ccx freefem++`; takes a few minutes.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deckDigest, type KeptAnswer, SOLVER_CASES } from '../../support/solver-cases.ts';
import { commandLine, installedVersion, runSolver } from '../../support/solver-run.ts';

const file = join(import.meta.dirname, 'answers.json');
const wanted = process.argv[2] ?? '';
const before: readonly KeptAnswer[] = wanted === '' ? [] : JSON.parse(readFileSync(file, 'utf8'));
const kept: KeptAnswer[] = [];
for (const { name, program, elements, unit, decks, answer } of SOLVER_CASES) {
  const old = before.find((one) => one.name === name && one.program === program);
  if (old && !name.includes(wanted)) {
    kept.push(old);
    continue;
  }
  const version = installedVersion(program);
  if (version === null) throw new Error(`${program} is not installed`);
  const made = decks();
  const value = answer(made.map((deck) => runSolver(program, deck)));
  console.log(`${program}: ${name}: ${value} ${unit}`);
  const [command] = made.map((deck) => commandLine(program, deck));
  kept.push({ name, program, version, command, elements, unit, answer: value, deck: deckDigest(made) });
}
writeFileSync(file, `${JSON.stringify(kept, null, 2)}\n`);
