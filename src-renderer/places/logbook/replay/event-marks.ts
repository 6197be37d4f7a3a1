import type { WorldEvent, WorldEventKind } from '../../../../physics/index.ts';

export interface EventMark {
  readonly event: WorldEvent;
  readonly weight: 'heavy' | 'light';
}

const HEAVY: ReadonlySet<WorldEventKind> = new Set([
  'near-run-out',
  'rescued',
  'run-out-inevitable',
  'run-out',
  'slipped',
  'joined',
  'disc-free',
  'complete',
  'stalled',
  'time-up',
]);
const LIGHT: ReadonlySet<WorldEventKind> = new Set([
  'grasp',
  'release',
  'puncture',
  'refill',
  'grasp-missed',
  'resumed',
]);

/** What is worth a mark on the line of time; starts and rests of the tear are too many. */
export const marksOf = (events: readonly WorldEvent[]): EventMark[] =>
  events.flatMap((event): EventMark[] => {
    if (HEAVY.has(event.kind)) return [{ event, weight: 'heavy' }];
    return LIGHT.has(event.kind) ? [{ event, weight: 'light' }] : [];
  });
