import type { ParseArgsConfig } from 'node:util';
import type { Problem } from '../../physics/index.ts';
import type { Messages } from '../../src-renderer/i18n/languages.ts';
import { phrase } from '../words/problem-words.ts';

/** Exit codes of every command. */
export const DONE = 0;
export const ANSWER_IS_NO = 1;
export const BAD_INPUT = 2;
export const INTERNAL_FAULT = 3;

/** Where a command writes. Standard output carries the result and nothing else. */
export interface Output {
  readonly result: (text: string) => void;
  readonly message: (text: string) => void;
  /** True when messages go to a person's terminal, where a moving bar makes sense. */
  readonly messagesToTerminal: boolean;
}

export type OptionValues = Readonly<Record<string, string | boolean | undefined>>;

export interface CommandCall {
  readonly positionals: readonly string[];
  readonly options: OptionValues;
  readonly json: boolean;
  readonly output: Output;
}

export interface Command {
  /** Usage line and summary are the messages under this name. */
  readonly name: keyof Messages['content']['terminal']['commands'];
  /** What is filled into the summary. */
  readonly inSummary?: Readonly<Record<string, string>>;
  /** Lines that help adds about the options, where their names do not say enough. Called when they are shown. */
  readonly more?: () => string;
  /** Number of positionals, smallest and largest. */
  readonly positionals: readonly [number, number];
  readonly options: NonNullable<ParseArgsConfig['options']>;
  /** Returns an exit code, or the problems that make it 2. Throws only on our own faults. */
  readonly run: (call: CommandCall) => Promise<number | readonly Problem[]>;
}

/** A problem of the arguments themselves, in English: it is told again in the person's language when it is printed. */
export const argumentProblem = (path: string, found: string, allowed: string): Problem => ({
  file: phrase('commandLine'),
  path,
  found,
  allowed,
});
