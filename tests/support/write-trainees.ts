/**
 * Writes the kept outcomes of the virtual trainees from what `npx rimward trainees --json` printed, given as files (a cell may
 * be spread over several by its seeds). Run with: node tests/support/write-trainees.ts out.json [more.json ...]
 */
import { readFileSync, writeFileSync } from 'node:fs';

interface Row {
  readonly age_years: number;
  readonly fluid: string;
  readonly behindPressure_mmHg: number;
  readonly outcomes: readonly { readonly seed: number; readonly ended: string; readonly digest: string }[];
}

const rows = process.argv
  .slice(2)
  .flatMap((file) => (JSON.parse(readFileSync(file, 'utf8')) as { readonly rows: readonly Row[] }).rows);
const keyOf = ({ age_years, fluid, behindPressure_mmHg }: Row) => `${age_years} ${fluid} ${behindPressure_mmHg}`;
const cells = [...new Set(rows.map(keyOf))].map((key) => {
  const parts = rows.filter((row) => keyOf(row) === key);
  const { age_years, fluid, behindPressure_mmHg } = parts[0]!;
  const outcomes = parts.flatMap((part) => part.outcomes).sort((a, b) => a.seed - b.seed);
  outcomes.forEach(({ seed }, k) => {
    if (seed !== k + 1) throw new Error(`${age_years} years, ${fluid}: seed ${k + 1} is missing or there twice`);
  });
  return {
    age_years,
    fluid,
    behindPressure_mmHg,
    // the first letter of each end: complete, run-out, open, stalled
    ended: outcomes.map(({ ended }) => ended[0]).join(''),
    digests: outcomes.map(({ digest }) => digest),
  };
});
const place = new URL('../../physics/verify/reference/trainees.json', import.meta.url);
writeFileSync(place, `${JSON.stringify({ command: 'npx rimward trainees --json', cells }, null, 2)}\n`);
for (const { age_years, fluid, ended } of cells) console.log(`${age_years} years, ${fluid}: ${ended.length} trainees`);
