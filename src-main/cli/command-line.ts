import { parseArgs } from 'node:util';
import { type Problem, TEACHING_CAUTION } from '../../physics/index.ts';
import { LANGUAGES } from '../../src-renderer/i18n/languages.ts';
import { phrase, problemLine } from '../words/problem-words.ts';
import { speak, spokenLanguage, t, textOf } from '../words/words.ts';
import {
  argumentProblem,
  BAD_INPUT,
  type Command,
  DONE,
  INTERNAL_FAULT,
  type OptionValues,
  type Output,
} from './command.ts';
import { commands } from './commands.ts';
import { dumpFault } from './fault-dump.ts';
import { type Environment, spokenOf } from './language.ts';
import { padded, widest } from './table.ts';

const usageOf = ({ name }: Command): string => t(`terminal.commands.${name}.usage`);

const summaryOf = ({ name, inSummary }: Command): string => t(`terminal.commands.${name}.summary`, inSummary);

function help(): string {
  const usages = commands.map((one) => `${one.name} ${usageOf(one)}`);
  const width = widest(usages) + 3;
  const rows = commands.map((one, at) => `  ${padded(usages[at], width)}${summaryOf(one)}`);
  return [
    t('terminal.help.usage'),
    '',
    ...rows,
    '',
    t('terminal.help.every', { languages: LANGUAGES.join('|') }),
    t('terminal.help.exits'),
    textOf(TEACHING_CAUTION),
    '',
  ].join('\n');
}

function commandHelp(command: Command): string {
  const value = ` <${t('terminal.help.value')}>`;
  const options = Object.entries(command.options).map(
    ([name, { type }]) => `  --${name}${type === 'string' ? value : ''}`,
  );
  const more = command.more === undefined ? [] : [command.more(), ''];
  const title = [`rimward ${command.name} ${usageOf(command)}`, '', summaryOf(command), ''];
  return [...title, ...more, ...options, '  --json', `  --language ${LANGUAGES.join('|')}`, ''].join('\n');
}

interface Split {
  readonly positionals: readonly string[];
  readonly options: OptionValues;
}

function split(command: Command, rest: readonly string[]): Split | readonly Problem[] {
  try {
    const { values, positionals } = parseArgs({
      args: [...rest],
      options: { ...command.options, json: { type: 'boolean' }, help: { type: 'boolean' } },
      allowPositionals: true,
    });
    return { positionals, options: values as OptionValues };
  } catch (fault) {
    const message = fault instanceof Error ? fault.message.split('\n')[0] : String(fault);
    return [argumentProblem(command.name, message, `rimward ${command.name} ${usageOf(command)}`)];
  }
}

function refuse(problems: readonly Problem[], output: Output): number {
  for (const problem of problems) output.message(`${problemLine(problem)}\n`);
  return BAD_INPUT;
}

async function runCommand(command: Command, rest: readonly string[], output: Output): Promise<number> {
  const parts = split(command, rest);
  if (!('options' in parts)) return refuse(parts, output);
  const { positionals, options } = parts;
  if (options.help === true) {
    output.result(commandHelp(command));
    return DONE;
  }
  const [fewest, most] = command.positionals;
  if (positionals.length < fewest || positionals.length > most) {
    const count = positionals.length;
    const found = count === 1 ? phrase('argumentsOne') : phrase('argumentsMany', { limit: count });
    return refuse([argumentProblem(command.name, found, `rimward ${command.name} ${usageOf(command)}`)], output);
  }
  const answer = await command.run({ positionals, options, json: options.json === true, output });
  return typeof answer === 'number' ? answer : refuse(answer, output);
}

async function runArguments(args: readonly string[], output: Output): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined || name === '--help' || name === 'help') {
    (name === undefined ? output.message : output.result)(help());
    return name === undefined ? BAD_INPUT : DONE;
  }
  const command = commands.find((one) => one.name === name);
  if (command === undefined) {
    return refuse([argumentProblem('', `"${name}"`, commands.map((one) => one.name).join(', '))], output);
  }
  try {
    return await runCommand(command, rest, output);
  } catch (fault) {
    output.message(`${dumpFault(args, fault)}\n`);
    return INTERNAL_FAULT;
  }
}

/**
 * Runs one command line and returns its exit code, in the language that the arguments or the environment ask for. Never throws:
 * a fault of ours is dumped to a file that names the arguments, so that it can be run again, and gives 3.
 */
export async function runCommandLine(
  args: readonly string[],
  output: Output,
  environment: Environment = {},
): Promise<number> {
  const { language, rest, problems } = spokenOf(args, environment);
  const before = spokenLanguage();
  speak(language);
  try {
    return problems.length > 0 ? refuse(problems, output) : await runArguments(rest, output);
  } finally {
    speak(before);
  }
}
