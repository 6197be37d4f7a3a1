import type { HandCommand } from '../../../physics/index.ts';
import type { FromWorker, Recorded } from '../../worker/messages.ts';

/**
 * What the physics has told of the attempts in hand, kept on the page's side: a worker that is gone can be asked for
 * nothing. Only the present attempt and the one that may be brought back are held, 60 commands per second of work.
 */
export class ToldCommands {
  #told = new Map<number, { readonly seed: number; readonly commands: HandCommand[] }>();

  heard(message: FromWorker): void {
    if (message.kind === 'began') {
      const { attempt, seed } = message;
      const present = this.#told.get(attempt) ?? { seed, commands: [] };
      const others = [...this.#told].filter(([number]) => number !== attempt);
      // The last is the one that was in hand until now.
      this.#told = new Map([...others.slice(-1), [attempt, present]]);
    }
    if (message.kind === 'commands') {
      const told = this.#told.get(message.attempt);
      if (told === undefined) return;
      told.commands.length = Math.min(told.commands.length, message.fromStep);
      for (const command of message.commands) told.commands.push(command);
    }
  }

  /** What was told of an attempt so far, to be played again; null when nothing is known of it. */
  of(attempt: number): Recorded | null {
    const told = this.#told.get(attempt);
    return told === undefined ? null : { seed: told.seed, commands: [...told.commands] };
  }

  /** A new worker counts its attempts anew. */
  forget(): void {
    this.#told.clear();
  }
}
