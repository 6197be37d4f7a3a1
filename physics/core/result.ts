/** One thing wrong with an input: where, what stood there, and what may stand there. */
export interface Problem {
  /** File name as the person gave it, or a label such as "command line". */
  readonly file: string;
  /** Path inside the file, for example `eye.age_years`; empty for the file as a whole. */
  readonly path: string;
  /** What was found, shortened to fit a line. */
  readonly found: string;
  /** What is allowed there. */
  readonly allowed: string;
}

/** Either a value or the whole list of problems; never half of each. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const ok = <T>(value: T): Result<T> => ({ ok: true, value });
export const bad = (problems: readonly Problem[]): Result<never> => ({ ok: false, problems });

/** One line for a person: `file: path: found ..., allowed ...`. */
export function formatProblem(problem: Problem): string {
  const place = problem.path === '' ? problem.file : `${problem.file}: ${problem.path}`;
  return `${place}: found ${problem.found}, allowed: ${problem.allowed}`;
}
