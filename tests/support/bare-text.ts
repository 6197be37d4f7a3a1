/** Finds words that stand in a page's source instead of in its messages. */
import { parseSync } from '@swc/core';

/** Attributes whose text a person reads or hears. */
const READ = new Set([
  'title',
  'label',
  'aria-label',
  'aria-description',
  'aria-roledescription',
  'aria-valuetext',
  'aria-placeholder',
  'placeholder',
  'alt',
  'legend',
  'caption',
  'hint',
]);

/** Caps of keys and units are the same in every language that we speak. */
const UNITS = /\b(mm|mN|mmHg|Pa|MPa|µm|px|CSV|PNG|JSON|HTML|PDF|Rimward)\b/g;
const hasWords = (text: string): boolean => /\p{L}{2}/u.test(text.replace(UNITS, ''));

interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as { type?: unknown }).type === 'string';

/** The texts that an expression may come to, as far as they stand in it: through choices, but not through calls. */
function literals(node: unknown): readonly string[] {
  if (!isNode(node)) return [];
  if (node.type === 'StringLiteral') return [String(node.value)];
  if (node.type === 'TemplateLiteral') {
    const parts = (node.quasis as readonly { readonly raw: string }[]).map(({ raw }) => raw);
    return [parts.join(' ')];
  }
  const inner: Readonly<Record<string, readonly unknown[]>> = {
    JSXExpressionContainer: [node.expression],
    ParenthesisExpression: [node.expression],
    ConditionalExpression: [node.consequent, node.alternate],
    BinaryExpression: node.operator === '+' || node.operator === '??' ? [node.left, node.right] : [node.right],
    TsAsExpression: [node.expression],
  };
  return (inner[node.type] ?? []).flatMap(literals);
}

const nameOf = (node: unknown): string => (isNode(node) ? String(node.value ?? '') : '');

function ofElement(node: Node): readonly string[] {
  const { opening, children } = node as unknown as { opening?: { name?: unknown }; children?: readonly unknown[] };
  // the cap of a key
  if (nameOf(opening?.name) === 'kbd') return [];
  return (children ?? []).flatMap((child) => {
    if (!isNode(child)) return [];
    if (child.type === 'JSXText') return [String(child.value)];
    // comparisons between children are not shown
    return child.type === 'JSXExpressionContainer' ? literals(child) : [];
  });
}

function ofAttribute(node: Node): readonly string[] {
  return READ.has(nameOf(node.name)) ? literals(node.value) : [];
}

/** @returns the bare texts of a TSX source, in order; empty where all words come from messages */
export function bareTexts(source: string): readonly string[] {
  const found: string[] = [];
  const waiting: unknown[] = [parseSync(source, { syntax: 'typescript', tsx: true, target: 'esnext' })];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (Array.isArray(next)) {
      for (const one of next.toReversed()) if (typeof one === 'object' && one !== null) waiting.push(one);
      continue;
    }
    const node = next as Node;
    if (node.type === 'JSXElement' || node.type === 'JSXFragment') found.push(...ofElement(node));
    if (node.type === 'JSXAttribute') found.push(...ofAttribute(node));
    for (const value of Object.values(node).toReversed()) {
      if (typeof value === 'object' && value !== null) waiting.push(value);
    }
  }
  return found.map((text) => text.replace(/\s+/g, ' ').trim()).filter(hasWords);
}
