import { runCommandLine } from '../../src-main/cli/command-line.ts';

/** Runs a command line in this process and gives what a terminal would have seen. */
export async function commandLine(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  let out = '';
  let err = '';
  const code = await runCommandLine(args, {
    result: (text) => {
      out += text;
    },
    message: (text) => {
      err += text;
    },
    messagesToTerminal: false,
  });
  return { code, out, err };
}
