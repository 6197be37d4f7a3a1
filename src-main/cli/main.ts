import type { Output } from './command.ts';
import { runCommandLine } from './command-line.ts';

// A reader that stops early (`rimward ... | head`) is no fault.
process.stdout.on('error', (fault: NodeJS.ErrnoException) => {
  if (fault.code !== 'EPIPE') throw fault;
});

const output: Output = {
  result: (text) => process.stdout.write(text),
  message: (text) => process.stderr.write(text),
  messagesToTerminal: process.stderr.isTTY === true,
};

process.exitCode = await runCommandLine(process.argv.slice(2), output, process.env);
