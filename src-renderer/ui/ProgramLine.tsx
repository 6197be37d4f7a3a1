import { programLine } from '../i18n/content.ts';

/** A line of the program around the page, marked as English where it could not be told in the person's language. */
export function ProgramLine({ line }: { readonly line: string }) {
  const { text, lang } = programLine(line);
  return <span lang={lang}>{text}</span>;
}
