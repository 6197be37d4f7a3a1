import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { t } from '../words/words.ts';

const LARGEST_COPIED_BYTES = 5_000_000;

/** The text of every argument that is a readable file, so that the dump can be run without the machine it came from. */
function inputsOf(args: readonly string[]): Record<string, string> {
  const inputs: Record<string, string> = {};
  for (const arg of args) {
    try {
      if (existsSync(arg) && statSync(arg).isFile() && statSync(arg).size <= LARGEST_COPIED_BYTES) {
        inputs[arg] = readFileSync(arg, 'utf8');
      }
    } catch {
      // A file that cannot be read is told by its absence; the fault itself must still be written.
    }
  }
  return inputs;
}

/**
 * Writes what is needed to run a fault again (arguments, input files, the fault with its stack) into `folder`, the
 * current one by default, and returns one line for the person. Never throws.
 */
export function dumpFault(args: readonly string[], fault: unknown, folder = '.'): string {
  const error = fault instanceof Error ? fault : new Error(String(fault));
  const path = resolve(folder, `rimward-dump-${process.pid}-${Date.now()}.json`);
  const dump = {
    rimwardDump: 1,
    args,
    node: process.version,
    message: error.message,
    stack: error.stack,
    inputs: inputsOf(args),
  };
  try {
    writeFileSync(path, `${JSON.stringify(dump, null, 2)}\n`);
    return t('terminal.fault.dumped', { message: error.message, file: path });
  } catch {
    return `${t('terminal.fault.notDumped', { message: error.message, file: path })}\n${error.stack ?? ''}`;
  }
}
