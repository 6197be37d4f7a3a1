import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { TEACHING_CAUTION } from '../../physics/index.ts';
import { PICTURES } from '../support/pictures/all.ts';
import { svgOf } from '../support/pictures/svg.ts';

const FOLDER = new URL('../../physics/doc/pictures/', import.meta.url);
const fileOf = (name: string): string => readFileSync(new URL(`${name}.svg`, FOLDER), 'utf8');
/** A text with its figures should load at once; a picture past this is a sign of too much in it. */
const MOST_BYTES = 60_000;
/** Sheets and polar curves step a world some hundred and sixty times, on a machine that may be busy. */
const PATIENCE_ms = 120_000;

describe("the pictures of the model's text", () => {
  test('are the ones that there is a maker for', () => {
    expect(readdirSync(FOLDER).sort()).toEqual(PICTURES.map(({ name }) => `${name}.svg`).sort());
  });

  test.each(PICTURES.map(({ name }) => name))('%s is small and carries the caution', (name) => {
    const svg = fileOf(name);
    expect(svg.length).toBeLessThan(MOST_BYTES);
    for (const sentence of TEACHING_CAUTION.split(/(?<=\.) /)) expect(svg).toContain(sentence);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });

  test.each(PICTURES.filter(({ quick }) => quick))(
    '$name is what the model gives now',
    ({ name, make }) => {
      expect(fileOf(name)).toBe(svgOf(make()));
    },
    PATIENCE_ms,
  );
});
