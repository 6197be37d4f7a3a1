import { existsSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { bad, ok, type Result } from '../../physics/index.ts';
import { phrase } from '../words/problem-words.ts';
import { argumentProblem, type OptionValues } from './command.ts';

/** A file that a command is to write, as a whole path; null when the option was not given. Its folder must exist. */
export function outFile(options: OptionValues, name: string): Result<string | null> {
  const given = options[name];
  if (typeof given !== 'string') return ok(null);
  const path = resolve(given);
  const problem = (found: string): Result<never> => bad([argumentProblem(`--${name}`, found, phrase('writable'))]);
  if (!existsSync(dirname(path))) return problem(phrase('inNoFolder', { text: `"${given}"` }));
  return existsSync(path) && statSync(path).isDirectory()
    ? problem(phrase('isFolder', { text: `"${given}"` }))
    : ok(path);
}
