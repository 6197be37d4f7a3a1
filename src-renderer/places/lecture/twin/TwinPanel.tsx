export function TwinPanel() {
  return null;
}
