import type { HandCommand } from '../../physics/index.ts';

/** Steps to which a command is rounded: far below what a hand or an instrument resolves. Our choice. */
const PER_mm = 1e4;
const PER_JAWS = 1e3;

const roundedTo = (value: number, per: number): number => Math.round(value * per) / per + 0;

/**
 * The command as it is stepped and as it is stored: places to 1e-4 mm, jaws to 1e-3. The world never sees anything finer,
 * so that what is stored plays again to the same opening.
 */
export const roundedCommand = (command: HandCommand): HandCommand => ({
  x_mm: roundedTo(command.x_mm, PER_mm),
  y_mm: roundedTo(command.y_mm, PER_mm),
  lift_mm: roundedTo(command.lift_mm, PER_mm),
  jaws: roundedTo(command.jaws, PER_JAWS),
  instrument: command.instrument,
  incision: command.incision,
});
