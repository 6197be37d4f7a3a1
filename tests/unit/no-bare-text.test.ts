import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bareTexts } from '../support/bare-text.ts';

const ROOT = join(import.meta.dirname, '..', '..');

/** Pages whose words have not been moved into messages yet. To be empty. */
const NOT_YET: readonly string[] = [];

const pages = globSync('src-renderer/**/*.tsx', { cwd: ROOT }).toSorted();

describe('the source of the page', () => {
  it('is found', () => {
    expect(pages.length).toBeGreaterThan(80);
  });

  it.each(pages)('%s has no words of its own', (file) => {
    const found = bareTexts(readFileSync(join(ROOT, file), 'utf8'));
    if (NOT_YET.includes(file)) expect(found, 'it is done: take it off the list').not.toEqual([]);
    else expect(found).toEqual([]);
  });
});

describe('bare words', () => {
  it.each([
    ['between tags', '<p>Read me</p>', ['Read me']],
    ['beside what is filled in', '<p>{number(1, 2)} torn</p>', ['torn']],
    ['chosen', "<b>{on ? 'Go on' : 'Pause'}</b>", ['Go on', 'Pause']],
    ['where a condition holds', "<b>{on && 'Near the rim'}</b>", ['Near the rim']],
    ['in a template', '<b>{`After $' + '{time} seconds`}</b>', ['After seconds']],
    ['in a title', '<b title="Fold it" />', ['Fold it']],
    ['in a chosen label', "<b aria-label={on ? 'Show' : 'Hide'} />", ['Show', 'Hide']],
    ['in a fragment', '<>Read me</>', ['Read me']],
    ['in a field', '<input placeholder="Your name" />', ['Your name']],
    ['of a part of ours', '<Line label="Age">{age}</Line>', ['Age']],
  ])('%s are found', (_, source, found) => {
    expect(bareTexts(`const shown = ${source};`)).toEqual(found);
  });

  it.each([
    ['from messages', "<p title={t('a.b')}>{t('a.c', { size: 'large' })}</p>"],
    ['that nobody reads', '<p className="long name" data-testid="its-name" />'],
    ['compared and not shown', "<p>{kind === 'first' && <b />}</p>"],
    ['on the cap of a key', '<kbd>Space</kbd>'],
    ['that are signs and units', '<p>✓ 5 mm · mN × {size}°</p>'],
  ])('%s are none', (_, source) => {
    expect(bareTexts(`const shown = ${source};`)).toEqual([]);
  });
});
