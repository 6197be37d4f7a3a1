export function ExportPanel() {
  return null;
}
