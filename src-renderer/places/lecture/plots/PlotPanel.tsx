export function PlotPanel() {
  return null;
}
