import type { AttemptResult, HandCommand, Scenario, StageGeometry, WorldView } from '../../physics/index.ts';

/** What the loop needs of the physics; `World` is the physics' own business. */
export interface WorldDoor<World> {
  createWorld(scenario: Scenario, seed: number): World;
  stepWorld(world: World, command: HandCommand): void;
  viewWorld(world: World): WorldView;
  stageGeometry(scenario: Scenario): StageGeometry;
  attemptResult(world: World, handId: string): AttemptResult;
}
