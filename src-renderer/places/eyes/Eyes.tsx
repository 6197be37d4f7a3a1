/** Being built. */
export function Eyes() {
  return null;
}
