import { resolve } from 'node:path';
import { dataFolder } from '../files/data-folder.ts';
import { openLoopback } from '../start/open-loopback.ts';
import { untilAskedToEnd } from '../start/until-asked-to-end.ts';
import { phrase } from '../words/problem-words.ts';
import { t } from '../words/words.ts';
import { argumentProblem, type Command, DONE } from './command.ts';

function portOf(text: string | boolean | undefined): number | null {
  if (text === undefined) return 0;
  const port = Number(text);
  return Number.isInteger(port) && port >= 1024 && port <= 65535 ? port : null;
}

export const serve: Command = {
  name: 'serve',
  positionals: [0, 0],
  options: { port: { type: 'string' }, data: { type: 'string' } },
  run: async ({ options, json, output }) => {
    const port = portOf(options.port);
    if (port === null) {
      return [argumentProblem('--port', `"${options.port}"`, phrase('wholeNumber', { from: 1024, to: 65535 }))];
    }
    const folder = typeof options.data === 'string' ? resolve(options.data) : dataFolder();
    const loopback = await openLoopback(port, folder).catch((fault: NodeJS.ErrnoException) => fault);
    if (loopback instanceof Error) {
      if (loopback.code === 'EADDRINUSE') {
        return [argumentProblem('--port', phrase('taken', { limit: port }), phrase('freePort'))];
      }
      throw loopback;
    }
    const askedToEnd = untilAskedToEnd();
    output.result(
      json ? `${JSON.stringify({ address: loopback.address, port: loopback.port })}\n` : `${loopback.address}\n`,
    );
    output.message(`${t('terminal.serve.open')}\n`);
    await askedToEnd;
    await loopback.close();
    return DONE;
  },
};
