/** The language in which the command line speaks: that of `--language`, else that of the environment, else English. */
import type { Problem } from '../../physics/index.ts';
import { LANGUAGES, type Language, languageOf } from '../../src-renderer/i18n/languages.ts';
import { phrase } from '../words/problem-words.ts';
import { argumentProblem } from './command.ts';

export type Environment = Readonly<Record<string, string | undefined>>;

/**
 * The language of the messages as POSIX.1-2017, 8.2, has it: the first of LC_ALL, LC_MESSAGES and LANG that is not empty
 * decides. "es_MX.UTF-8" is Spanish; "C", and a language that is none of ours, is English.
 */
export function languageOfEnvironment({ LC_ALL, LC_MESSAGES, LANG }: Environment): Language {
  const locale = [LC_ALL, LC_MESSAGES, LANG].find((one) => one !== undefined && one !== '') ?? 'C';
  return languageOf([locale.split(/[.@]/)[0].replace('_', '-')]);
}

export interface Spoken {
  readonly language: Language;
  /** The arguments without the language. */
  readonly rest: readonly string[];
  readonly problems: readonly Problem[];
}

const OPTION = '--language';

/** Takes the language out of the arguments, wherever it stands before a `--`; the last one counts. */
export function spokenOf(args: readonly string[], environment: Environment): Spoken {
  const end = args.includes('--') ? args.indexOf('--') : args.length;
  const rest: string[] = [];
  const problems: Problem[] = [];
  let language = languageOfEnvironment(environment);
  for (let at = 0; at < end; at += 1) {
    const arg = args[at];
    if (arg !== OPTION && !arg.startsWith(`${OPTION}=`)) {
      rest.push(arg);
      continue;
    }
    if (arg === OPTION) at += 1;
    const given = arg === OPTION ? (at < end ? args[at] : undefined) : arg.slice(OPTION.length + 1);
    const found = LANGUAGES.find((one) => one === given?.toLowerCase());
    if (found !== undefined) language = found;
    else {
      const what = given === undefined ? phrase('nothing') : `"${given}"`;
      problems.push(argumentProblem(OPTION, what, LANGUAGES.join(', ')));
    }
  }
  return { language, rest: [...rest, ...args.slice(end)], problems };
}
