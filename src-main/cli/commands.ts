import { runHand } from '../../physics/index.ts';
import { bench } from './bench.ts';
import type { Command } from './command.ts';
import { eye } from './eye.ts';
import { opening } from './opening.ts';
import { replay } from './replay.ts';
import { report } from './report.ts';
import { createRun } from './run.ts';
import { scenarios } from './scenarios.ts';
import { sensitivity } from './sensitivity.ts';
import { serve } from './serve.ts';
import { sweep } from './sweep.ts';
import { trainees } from './trainees.ts';
import { verify } from './verify.ts';

/** Every command there is, in the order in which help lists them. A new one is a file of its own and a row here. */
export const commands: readonly Command[] = [
  createRun(runHand),
  replay,
  report,
  opening,
  eye,
  sweep,
  trainees,
  sensitivity,
  scenarios,
  verify,
  bench,
  serve,
];
