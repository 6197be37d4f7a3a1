import type {
  AttemptResult,
  CostlyMoment,
  HandCommand,
  Scenario,
  StageGeometry,
  WorldEvent,
  WorldView,
} from '../../physics/index.ts';

/** Notes at every step what the costly moments are found in. */
export interface MomentNotes {
  /** To be called after every step. */
  record(): void;
  /** The moments that cost the most, the worst first. */
  moments(events: readonly WorldEvent[]): readonly CostlyMoment[];
}

/** What the loop needs of the physics; `World` is the physics' own business. */
export interface WorldDoor<World> {
  createWorld(scenario: Scenario, seed: number): World;
  stepWorld(world: World, command: HandCommand): void;
  viewWorld(world: World): WorldView;
  stageGeometry(scenario: Scenario): StageGeometry;
  noteMoments(world: World): MomentNotes;
  attemptResult(world: World, handId: string): AttemptResult;
}
