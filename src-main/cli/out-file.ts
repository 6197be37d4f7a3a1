import { existsSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { bad, ok, type Result } from '../../physics/index.ts';
import { argumentProblem, type OptionValues } from './command.ts';

/** A file that a command is to write, as a whole path; null when the option was not given. Its folder must exist. */
export function outFile(options: OptionValues, name: string): Result<string | null> {
  const given = options[name];
  if (typeof given !== 'string') return ok(null);
  const path = resolve(given);
  const problem = (found: string): Result<never> =>
    bad([argumentProblem(`--${name}`, found, 'a file in a folder that exists')]);
  if (!existsSync(dirname(path))) return problem(`"${given}", in no folder`);
  return existsSync(path) && statSync(path).isDirectory() ? problem(`"${given}", a folder`) : ok(path);
}
