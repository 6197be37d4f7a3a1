/** Being built. */
export function Logbook() {
  return null;
}
