/** A clock hour as people say it, to the half hour: "2 o'clock", "half past 12". */
export function clockWords(clock_h: number): string {
  const halves = ((Math.round(2 * clock_h) % 24) + 24) % 24;
  const hour = Math.floor(halves / 2) === 0 ? 12 : Math.floor(halves / 2);
  return halves % 2 === 1 ? `half past ${hour}` : `${hour} o’clock`;
}
