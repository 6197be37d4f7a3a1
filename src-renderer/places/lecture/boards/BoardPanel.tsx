export function BoardPanel() {
  return null;
}
