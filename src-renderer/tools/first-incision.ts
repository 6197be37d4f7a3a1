/** Where an incision lies across the surgeon: sine of its clock angle, -1 at the left to 1 at the right. */
const across = (clock_h: number): number => Math.sin((clock_h / 12) * 2 * Math.PI);

/**
 * The incision that a hand enters through when an attempt begins. The eye stays as the scenario has it, so that attempts
 * compare and a replay is exact; a left hand takes the incision on its own side, where there is one.
 * @param before the incision that was in use
 * @returns index among the incisions
 */
export function firstIncision(
  incisions: readonly { readonly clock_h: number }[],
  before: number,
  leftHanded: boolean,
): number {
  const kept = Math.max(0, Math.min(before, incisions.length - 1));
  if (!leftHanded) return kept;
  let best = kept;
  incisions.forEach(({ clock_h }, index) => {
    if (across(clock_h) < across(incisions[best]?.clock_h ?? 12)) best = index;
  });
  return across(incisions[best]?.clock_h ?? 12) < 0 ? best : kept;
}
