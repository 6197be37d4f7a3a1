/**
 * A process that does an attempt until it is killed: makes steps, appends them every 15, and tells its parent after each
 * what it has made and what the store has answered. Arguments: data folder, id of the person.
 */
import { writeSync } from 'node:fs';
import { Store } from '../../src-main/store/store.ts';
import { storeServices } from '../../src-main/store/store-services.ts';
import { madeCommands, scenario } from './made-attempts.ts';

const STEPS_PER_APPEND = 15;
const [folder, personId] = process.argv.slice(2);
const host = storeServices(new Store(folder));
const commands = madeCommands(150_000, 5);
// Written at once and without a buffer: what was written before a kill has arrived.
const tell = (line: string): void => void writeSync(1, `${line}\n`);

const id = await host.beginAttempt({ personId, place: 'trial', scenario, seed: 1, modelVersion: 'test' });
tell(`attempt ${id}`);
for (let at = 0; at + STEPS_PER_APPEND <= commands.length; at += STEPS_PER_APPEND) {
  tell(`made ${at + STEPS_PER_APPEND}`);
  await host.appendCommands(id, at, commands.slice(at, at + STEPS_PER_APPEND));
  tell(`kept ${at + STEPS_PER_APPEND}`);
}
