import { describe, expect, it } from 'vitest';
import { allChecks } from '../../physics/index.ts';
import { commandLine } from '../support/command-line.ts';

const CHECKS = allChecks();

const verify = (...args: string[]) => commandLine('verify', ...args);

describe('rimward verify', () => {
  it('runs one check by its name, in either case, and tells its progress on standard error only', async () => {
    const { code, out, err } = await verify('--only', 'a12');
    expect(code).toBe(0);
    expect(err).toContain('1 of 1: A12');
    expect(out).toContain('A12  pass');
    expect(out).toContain('not for planning surgery');
    expect(out).not.toContain('1 of 1');
  });

  it('gives rows as JSON with all that a reader needs to judge them', async () => {
    const { code, out } = await verify('--only', 'A2', '--json');
    const { pass, checks } = JSON.parse(out);
    expect([code, pass]).toEqual([0, true]);
    expect(checks[0]).toMatchObject({
      name: 'A2',
      unit: 'kPa',
      pass: true,
      tolerance: { kind: 'relative', allowed: 1e-8 },
    });
    for (const key of ['problem', 'quantity', 'computed', 'reference', 'source', 'deviation'])
      expect(checks[0]).toHaveProperty(key);
  });

  it('lists what there is, and runs nothing', async () => {
    const { code, out, err } = await verify('--list');
    expect([code, err]).toEqual([0, '']);
    for (const { name } of CHECKS) expect(out).toContain(`${name} `);
    const listed = JSON.parse((await verify('--list', '--json')).out);
    expect(listed.checks).toHaveLength(CHECKS.length);
  });

  it('shows a known miss as one, with its reason, and does not fail for it', async () => {
    const { code, out } = await verify('--only', 'C7');
    expect(code).toBe(0);
    expect(out).toMatch(/^C7 +known miss/m);
    expect(out).toContain('gives up 22 % beside the opening');
    expect(out).toContain('1 is a known miss.');
  });

  it('refuses a name there is no check of', async () => {
    const unknown = await verify('--only', 'Z9');
    expect([unknown.code, unknown.out]).toEqual([2, '']);
    expect(unknown.err).toContain('"Z9"');
  });
});
