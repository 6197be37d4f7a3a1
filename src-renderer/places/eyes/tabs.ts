/** The parts of the editor, in the order in which a scenario is thought up, and where each place of the file is. */
export const TABS = [
  { id: 'name', places: ['title', 'brief', 'id'] },
  { id: 'eye', places: ['eye'] },
  { id: 'chamber', places: ['chamber'] },
  { id: 'start', places: ['start', 'incisions'] },
  { id: 'target', places: ['target'] },
  { id: 'grades', places: ['tolerances'] },
  { id: 'rules', places: ['aids', 'timeLimit_s', 'trial', 'seed'] },
  { id: 'try', places: [] },
] as const;

export type TabId = (typeof TABS)[number]['id'];

/** The part that shows a place such as `eye.age_years`; the first for places that have no field. */
export function tabOf(path: string): TabId {
  const head = /^[^.[]*/.exec(path)?.[0] ?? '';
  return TABS.find(({ places }) => (places as readonly string[]).includes(head))?.id ?? 'name';
}
