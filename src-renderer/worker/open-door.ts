import * as physics from '../../physics/index.ts';
import type { WorldDoor } from './world-door.ts';

/** The door's functions that step a world, taken as a whole. */
export const worldDoor: WorldDoor<unknown> = physics as unknown as WorldDoor<unknown>;
