/** HTML that is made of literal text and escaped values only. */

/** A piece of finished markup; anything else that is put into `html` is text and escaped. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}

export type HtmlValue = Markup | string | number | null | false | readonly HtmlValue[];

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** What no page may hold: controls, halves of characters, and the marks that turn the order of the text around them. */
const FORBIDDEN = /(?![\t\n\r])[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069\ufffe\uffff]/gu;

/** Text as it may stand in an element or in a quoted attribute. */
export const escaped = (text: string): string =>
  text.replaceAll(FORBIDDEN, '\ufffd').replaceAll(/[&<>"']/g, (character) => ENTITIES[character]);

function rendered(value: HtmlValue): string {
  if (value instanceof Markup) return value.text;
  if (value === null || value === false) return '';
  if (typeof value === 'number') {
    // A number reaches a page through `figures.ts`; here only sizes and counts of our own stand.
    if (!Number.isFinite(value)) throw new RangeError('a number that is none was about to be printed');
    return String(value);
  }
  return typeof value === 'string' ? escaped(value) : value.map(rendered).join('');
}

/** Template for markup: every value is escaped unless it is markup itself. Lists are put one after the other. */
export function html(parts: TemplateStringsArray, ...values: readonly HtmlValue[]): Markup {
  return new Markup(parts.reduce((text, part, at) => text + rendered(values[at - 1]) + part));
}
