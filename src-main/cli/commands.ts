import type { Command } from './command.ts';
import { eye } from './eye.ts';
import { opening } from './opening.ts';
import { scenarios } from './scenarios.ts';
import { serve } from './serve.ts';

/** Every command there is, in the order in which help lists them. A new one is a file of its own and a row here. */
export const commands: readonly Command[] = [opening, eye, scenarios, serve];
