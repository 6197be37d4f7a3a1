/** Message templates read backwards: as patterns that find again what stood in their `{{slots}}`. */

export const SLOT = /\{\{(\w+)\}\}/g;

const exactly = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** A template as the source of a regular expression; `slotSource` gives that of each slot by its name. */
export function patternSource(template: string, slotSource: (slot: string) => string): string {
  return template
    .split(SLOT)
    .map((part, at) => (at % 2 === 0 ? exactly(part) : slotSource(part)))
    .join('');
}
