/** Being built. */
export function Trial() {
  return null;
}
