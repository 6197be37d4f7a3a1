/** The parts of the editor, in the order in which a scenario is thought up, and where each place of the file is. */
export const TABS = [
  { id: 'name', label: 'Name', places: ['title', 'brief', 'id'] },
  { id: 'eye', label: 'Eye', places: ['eye'] },
  { id: 'chamber', label: 'Chamber', places: ['chamber'] },
  { id: 'start', label: 'Start', places: ['start', 'incisions'] },
  { id: 'target', label: 'Target', places: ['target'] },
  { id: 'grades', label: 'Grades', places: ['tolerances'] },
  { id: 'rules', label: 'Rules', places: ['aids', 'timeLimit_s', 'trial', 'seed'] },
  { id: 'try', label: 'Let a hand try', places: [] },
] as const;

export type TabId = (typeof TABS)[number]['id'];

/** The part that shows a place such as `eye.age_years`; the first for places that have no field. */
export function tabOf(path: string): TabId {
  const head = /^[^.[]*/.exec(path)?.[0] ?? '';
  return TABS.find(({ places }) => (places as readonly string[]).includes(head))?.id ?? 'name';
}
