import { fromMarkdown } from 'mdast-util-from-markdown';

/** A thing in a text that a board may not hold. */
export interface MarkdownFault {
  readonly found: string;
  readonly allowed: string;
}

interface Node {
  readonly type: string;
  readonly url?: string;
  readonly value?: string;
  readonly children?: readonly Node[];
}

/** Quotes in lists in quotes: more than this is no text for a room, and drawing it could exhaust the page. Assumed. */
const DEEPEST = 20;
const SHORT = 40;
const short = (text: string): string => JSON.stringify(text.length > SHORT ? `${text.slice(0, SHORT - 3)}...` : text);

/** Links that can be written but are shown as their words: nothing is fetched or opened from a board. */
const PLAIN_LINK = /^(https?:|mailto:)/i;

/** What a browser would take for a tag although Markdown does not, such as `<svg/onload=x>`. */
const LIKE_A_TAG = /<[a-z!/?][^\s<]*/i;

function faultOf({ type, url = '', value = '' }: Node): MarkdownFault | null {
  const like = type === 'text' ? LIKE_A_TAG.exec(value) : null;
  if (like !== null) return { found: `what looks like HTML, ${short(like[0])}`, allowed: 'a space after each <' };
  if (type === 'html') return { found: `HTML, ${short(value)}`, allowed: 'text in Markdown without HTML' };
  if (type === 'image' || type === 'imageReference') {
    return { found: `a picture, ${short(url)}`, allowed: 'text, lists and emphasis' };
  }
  if ((type === 'link' || type === 'definition') && !PLAIN_LINK.test(url)) {
    return { found: `a link to ${short(url)}`, allowed: 'links that begin with https:, http: or mailto:' };
  }
  return null;
}

/**
 * What a Markdown text holds that a board may not: HTML of any kind, pictures, links that are not plain addresses. It is
 * read by the parser that also shows it, so what is found here is what would be drawn. Never throws.
 */
export function markdownFaults(text: string): readonly MarkdownFault[] {
  const faults: MarkdownFault[] = [];
  const waiting: { readonly node: Node; readonly depth: number }[] = [{ node: fromMarkdown(text), depth: 0 }];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const { node, depth } = next;
    const fault = faultOf(node);
    if (fault !== null) faults.push(fault);
    if (depth > DEEPEST) {
      return [...faults, { found: 'text nested very deeply', allowed: `at most ${DEEPEST} levels` }];
    }
    for (const child of node.children ?? []) waiting.push({ node: child, depth: depth + 1 });
  }
  return faults;
}
