/**
 * Writes down what the checks say that take too long for every run of the tests, from what `npx rimward verify --json` printed.
 * Run with: node tests/support/write-slow-check-texts.ts verify.json
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { allChecks, type CheckRow } from '../../physics/index.ts';
import { textsOfRow } from './check-texts.ts';

const [file = ''] = process.argv.slice(2);
const { checks: rows } = JSON.parse(readFileSync(file, 'utf8')) as { readonly checks: readonly CheckRow[] };
const texts = allChecks()
  .filter(({ quick }) => !quick)
  .map(({ name }) => {
    const its = rows.filter((row) => row.name === name).flatMap(textsOfRow);
    if (its.length === 0) throw new Error(`${name} is not in ${file}`);
    return [name, [...new Set(its)]] as const;
  });
const place = new URL('slow-check-texts.json', import.meta.url);
writeFileSync(place, `${JSON.stringify(Object.fromEntries(texts), null, 2)}\n`);
console.log(`${texts.length} checks, ${texts.flatMap(([, its]) => its).length} texts`);
