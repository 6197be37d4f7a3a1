import {
  attemptResult,
  costlyMoments,
  createMomentRecorder,
  createWorld,
  stageGeometry,
  stepWorld,
  viewWorld,
  type World,
} from '../../physics/index.ts';
import type { MomentNotes, WorldDoor } from './world-door.ts';

function noteMoments(world: World): MomentNotes {
  const { record, samples } = createMomentRecorder(world);
  return { record, moments: (events) => costlyMoments(samples, events) };
}

/** The physics, as the loop needs it. */
export const worldDoor: WorldDoor<World> = {
  createWorld,
  stepWorld,
  viewWorld,
  stageGeometry,
  noteMoments,
  attemptResult,
};
