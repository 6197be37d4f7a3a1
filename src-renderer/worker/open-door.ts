import { attemptResult, createWorld, stageGeometry, stepWorld, viewWorld, type World } from '../../physics/index.ts';
import type { WorldDoor } from './world-door.ts';

/** The physics, as the loop needs it. */
export const worldDoor: WorldDoor<World> = { createWorld, stepWorld, viewWorld, stageGeometry, attemptResult };
