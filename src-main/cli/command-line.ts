import { parseArgs } from 'node:util';
import { formatProblem, type Problem } from '../../physics/index.ts';
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

function help(): string {
  const width = Math.max(...commands.map((one) => one.name.length + one.usage.length)) + 4;
  const rows = commands.map((one) => `  ${`${one.name} ${one.usage}`.padEnd(width)}${one.summary}`);
  return [
    'rimward <command> [options]',
    '',
    ...rows,
    '',
    'Every command takes --json (the result as JSON) and --help.',
    'Exit codes: 0 done, 1 the answer is no, 2 wrong arguments or a bad file, 3 a fault of ours.',
    'Teaching model, not for planning surgery. Local protocol and supervised practice come first.',
    '',
  ].join('\n');
}

function commandHelp(command: Command): string {
  const options = Object.entries(command.options).map(
    ([name, { type }]) => `  --${name}${type === 'string' ? ' <value>' : ''}`,
  );
  const more = command.more === undefined ? [] : [...command.more, ''];
  const title = [`rimward ${command.name} ${command.usage}`, '', command.summary, ''];
  return [...title, ...more, ...options, '  --json', ''].join('\n');
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
    return [argumentProblem(command.name, message, `rimward ${command.name} ${command.usage}`)];
  }
}

function refuse(problems: readonly Problem[], output: Output): number {
  for (const problem of problems) output.message(`${formatProblem(problem)}\n`);
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
    const found = `${positionals.length} argument${positionals.length === 1 ? '' : 's'}`;
    return refuse([argumentProblem(command.name, found, `rimward ${command.name} ${command.usage}`)], output);
  }
  const answer = await command.run({ positionals, options, json: options.json === true, output });
  return typeof answer === 'number' ? answer : refuse(answer, output);
}

/**
 * Runs one command line and returns its exit code. Never throws: a fault of ours is dumped to a file that names the
 * arguments, so that it can be run again, and gives 3.
 */
export async function runCommandLine(args: readonly string[], output: Output): Promise<number> {
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
