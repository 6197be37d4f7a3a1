import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { HostReply, Job, JobProgress } from '../../src-main/ipc/contract.ts';
import { type LoopbackServices, loopbackServices } from '../../src-main/loopback/services.ts';
import { openTestSite, type TestSite } from '../support/loopback-client.ts';
import { madeCommands, madePerson, madeResult, scenario } from '../support/made-attempts.ts';

let folder: string;
let services: LoopbackServices;
let site: TestSite;
let id: string;
const temporary = process.env.TMPDIR;

const exchanges = (): string[] => readdirSync(tmpdir()).filter((name) => name.startsWith('rimward-exchange-'));

const host = async (method: string, ...args: unknown[]): Promise<HostReply> =>
  JSON.parse((await site.call(method, args)).body);
const value = async <T>(method: string, ...args: unknown[]): Promise<T> => {
  const reply = await host(method, ...args);
  if (!reply.ok) throw new Error(reply.problems.join('\n'));
  return reply.value as T;
};

async function ended(job: Job): Promise<JobProgress> {
  for (;;) {
    const progress = await value<JobProgress>('jobProgress', job.id);
    if (progress.state !== 'running') return progress;
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

const upload = (kind: string, name: string, body: Buffer, headers: Record<string, string> = {}) =>
  site.ask({
    method: 'POST',
    path: `/upload/${kind}?name=${encodeURIComponent(name)}`,
    headers: {
      ...site.asPage,
      origin: `http://127.0.0.1:${site.loopback.port}`,
      'content-type': 'application/octet-stream',
      'x-rimward-host': '1',
      ...headers,
    },
    body,
  });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'exchange-test-'));
  // Temporary files of this test alone.
  process.env.TMPDIR = folder;
  services = loopbackServices(folder);
  site = await openTestSite(services);
  const person = madePerson();
  await value('savePerson', person);
  const start = { personId: person.id, place: 'trial', scenario, seed: 1, modelVersion: 'test' };
  id = await value('beginAttempt', start);
  await value('appendCommands', id, 0, madeCommands(60));
  await value('finishAttempt', id, madeResult(60));
});
afterAll(async () => {
  await site.loopback.close();
  expect(exchanges()).toEqual([]);
  if (temporary === undefined) delete process.env.TMPDIR;
  else process.env.TMPDIR = temporary;
  rmSync(site.folder, { recursive: true });
  rmSync(folder, { recursive: true });
});

/** What the browser fetches once the job has finished, as it came over the wire. */
async function written(job: Job): Promise<Buffer> {
  expect((await ended(job)).state).toBe('finished');
  const response = await fetch(`http://127.0.0.1:${site.loopback.port}/download/${job.id}`, { headers: site.asPage });
  expect(response.status).toBe(200);
  expect(response.headers.get('content-disposition')).toBe(`attachment; filename*=UTF-8''${job.fileName}`);
  return Buffer.from(await response.arrayBuffer());
}

describe('files between the browser and the program', () => {
  test('a bundle is written, fetched once, and taken in again', async () => {
    const job = await value<Job>('exportBundle', 'class', [id]);
    expect(job.fileName).toBe('class.rimward-bundle');
    const bytes = await written(job);
    expect(gunzipSync(bytes).toString()).toContain(id);
    expect((await site.ask({ path: `/download/${job.id}`, headers: site.asPage })).status).toBe(404);

    await value('removeAttempt', id);
    const reply = JSON.parse((await upload('bundle', 'from Ada.rimward-bundle', bytes)).body);
    expect(reply.ok).toBe(true);
    expect((await ended(reply.value)).lines).toEqual(['Taken in: 1 attempt.']);
    const [attempt] = await value<{ fromBundle: string; seal: string }[]>('listAttempts', {});
    expect(attempt).toMatchObject({ fromBundle: 'from Ada.rimward-bundle', seal: 'fits' });
  });

  test('a backup is written, fetched and restored', async () => {
    const bytes = await written(await value<Job>('backupStore', 'all'));
    expect(bytes.toString('latin1', 0, 15)).toBe('SQLite format 3');
    await value('removeAttempt', id);
    const reply = JSON.parse((await upload('store', 'all.rimward-store', bytes)).body);
    expect((await ended(reply.value)).lines[0]).toBe('Restored: 1 people, 1 attempts.');
    expect(await value('listAttempts', {})).toMatchObject([{ id, seal: 'fits' }]);
  });

  test('what is no bundle and no backup gives lines, and no file is left behind', async () => {
    for (const [kind, body] of [
      ['bundle', Buffer.from('no bundle')],
      ['bundle', gzipSync('{}')],
      ['store', Buffer.from('no store')],
    ] as const) {
      const reply = JSON.parse((await upload(kind, 'x', body)).body);
      const progress = await ended(reply.value);
      expect(progress.state).toBe('failed');
      expect(progress.lines.length).toBeGreaterThan(0);
    }
    const [mine] = exchanges();
    expect(readdirSync(join(tmpdir(), mine))).toEqual([]);
    expect(await value('listAttempts', {})).toHaveLength(1);
  });

  test('a name that leads anywhere is only not shown', async () => {
    const bytes = await written(await value<Job>('exportBundle', 'class', [id]));
    const reply = JSON.parse((await upload('bundle', '../../etc/passwd', bytes)).body);
    expect(reply.value.fileName).toBe('a file');
    await ended(reply.value);
  });

  test('an upload without the key, the header or from elsewhere, of another type, or too large is refused', async () => {
    const body = Buffer.from('x');
    expect((await upload('bundle', 'x', body, { cookie: '' })).status).toBe(403);
    expect((await upload('bundle', 'x', body, { 'x-rimward-host': '' })).status).toBe(403);
    expect((await upload('bundle', 'x', body, { origin: 'http://evil.example' })).status).toBe(403);
    expect((await upload('bundle', 'x', body, { 'content-type': 'application/json' })).status).toBe(415);
    expect((await upload('other', 'x', body)).status).toBe(404);
    const large = { 'content-length': '500000000' };
    expect((await upload('bundle', 'x', body, large).catch(() => ({ status: 413 }))).status).toBe(413);
  });

  test('a download of no job, of one that is running, or without the key gives nothing', async () => {
    expect((await site.ask({ path: '/download/', headers: site.asPage })).status).toBe(404);
    expect((await site.ask({ path: '/download/../rimward.sqlite', headers: site.asPage })).status).toBe(404);
    const job = await value<Job>('exportBundle', 'class', [id]);
    await ended(job);
    expect((await site.ask({ path: `/download/${job.id}` })).status).toBe(403);
    await written(job);
  });
});

describe('reports', () => {
  test('stand at an address of their own, under rules that let nothing run', async () => {
    await value('openAttemptReport', id);
    const report = await site.ask({ path: `/report/attempt/${id}`, headers: site.asPage });
    // An attempt of another model is not played again, so the report may be there at once or after a moment.
    const again = await site.ask({ path: `/report/attempt/${id}`, headers: site.asPage });
    expect([report.status, again.status]).toEqual([200, 200]);
    expect(again.body).toContain('Ada Example');
    expect(again.body).toContain('not for planning surgery');
    const rules = String(again.headers['content-security-policy']);
    expect(rules).toMatch(/default-src 'none'; style-src 'sha256-[\w+/=]+'; base-uri 'none'/);
    expect(rules).not.toMatch(/script|unsafe|self/);
  });

  test('of a person in a scenario stand at theirs', async () => {
    const [person] = await value<{ id: string }[]>('listPeople');
    await value('openPersonReport', person.id, scenario.id);
    const report = await site.ask({ path: `/report/person/${person.id}/${scenario.id}`, headers: site.asPage });
    expect(report.status).toBe(200);
    expect(report.body).toContain('Ada Example');
    expect(report.body).toContain('not for planning surgery');
    expect(String(report.headers['content-security-policy'])).not.toMatch(/script|unsafe|self/);
    expect((await host('openPersonReport', person.id, 'another-eye')).ok).toBe(false);
    const none = await site.ask({ path: `/report/person/${person.id}/another-eye`, headers: site.asPage });
    expect(none.status).toBe(404);
  });

  test('of no attempt, at another address or without the key there are none', async () => {
    const unknown = '00000000-0000-4000-8000-000000000000';
    expect((await host('openAttemptReport', unknown)).ok).toBe(false);
    const page = await site.ask({ path: `/report/attempt/${unknown}`, headers: site.asPage });
    expect(page.status).toBe(404);
    expect((await site.ask({ path: '/report/attempt/x', headers: site.asPage })).status).toBe(404);
    expect((await site.ask({ path: `/report/attempt/${id}` })).status).toBe(403);
  });

  test('are not made into PDF files here, and the refusal says what to do instead', async () => {
    const reply = await host('saveAttemptReport', id);
    expect(reply).toEqual({ ok: false, problems: [expect.stringContaining('print it')] });
  });
});
