import { expect, test } from 'vitest';
import { withoutSpurs } from '../../physics/world/opening-outline.ts';

const pruned = (loop: string): string => withoutSpurs([...loop], (place) => place.toLowerCase()).join('');

test('a margin without spurs stays as it is', () => {
  expect(pruned('abcd')).toBe('abcd');
});

test('a slit torn on past a meeting is left out, out and back', () => {
  expect(pruned('abxyzYXBcd')).toBe('abcd');
  expect(pruned('abxXBcd')).toBe('abcd');
});

test('two slits at one place are left out', () => {
  expect(pruned('abxyXBpqPBcd')).toBe('abcd');
});

test('a slit is left out wherever the loop begins', () => {
  const loop = 'abxyzYXBcd';
  for (let turn = 0; turn < loop.length; turn++) {
    const kept = pruned(loop.slice(turn) + loop.slice(0, turn)).toLowerCase();
    const from = kept.indexOf('a');
    expect(kept.slice(from) + kept.slice(0, from)).toBe('abcd');
  }
});

test('a margin that passes one place twice with an area between keeps both', () => {
  expect(pruned('abcdBef')).toBe('abcdBef');
});
