import type { HandCommand, Scenario, Vec2, WorldView } from '../../physics/index.ts';
import type { World } from '../../physics/world/state.ts';
import { viewWorld } from '../../physics/world/view.ts';
import { createWorld, stepWorld } from '../../physics/world/world.ts';
import { firstIncision } from '../../src-renderer/tools/first-incision.ts';
import {
  askedTip,
  commandOf,
  type Doing,
  type HandEvent,
  type HandState,
  type HandWays,
  handAfter,
  restingHand,
} from '../../src-renderer/tools/hand.ts';
import { roundedCommand } from '../../src-renderer/worker/rounded-command.ts';

/** One step: where the device has the hand, and what was asked of the instrument. */
export interface WorkedStep {
  readonly command: HandCommand;
  readonly doing: Doing;
  readonly raw_mm: Vec2;
  readonly asked_mm: Vec2;
}

/** A real world under the page's own hand, in one thread: what a device does goes in, one step comes out. */
export class HandAtWork {
  readonly world: World;
  view: WorldView;
  hand: HandState;
  readonly steps: WorkedStep[] = [];

  constructor(scenario: Scenario, leftHanded = false) {
    this.world = createWorld(scenario, scenario.seed);
    this.view = viewWorld(this.world);
    this.hand = restingHand([0.6, -1.2], 'forceps', firstIncision(scenario.incisions, 0, leftHanded));
  }

  get asked_mm(): Vec2 {
    return askedTip(this.hand);
  }

  /** Height asked while tissue is held, mm. */
  get holdLift_mm(): number {
    return this.hand.holdLift_mm + this.hand.lean_mm;
  }

  readonly act = (event: HandEvent): void => {
    this.hand = handAfter(this.hand, event, this.view);
  };

  /** One frame of the page and one step of the world. */
  step(dt_s: number, ways: HandWays): void {
    this.act({ kind: 'pass', dt_s, ways });
    const command = roundedCommand(commandOf(this.hand, this.view));
    const { pointer_mm, offset_mm, doing } = this.hand;
    const raw_mm: Vec2 = [pointer_mm[0] + offset_mm[0], pointer_mm[1] + offset_mm[1]];
    this.steps.push({ command, doing, raw_mm, asked_mm: [command.x_mm, command.y_mm] });
    stepWorld(this.world, command);
    this.view = viewWorld(this.world);
  }
}
