import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { sameSecret } from '../../src-main/loopback/access.ts';
import { openTestSite, SECRET_OUTSIDE, type TestSite } from '../support/loopback-client.ts';

let site: TestSite;
const saved: unknown[] = [];

beforeAll(async () => {
  site = await openTestSite({
    hostInfo: async () => ({ version: '1', platform: 'test', dataFolder: '/nowhere', notices: [] }),
    savePreference: async (key, value) => {
      saved.push([key, value]);
    },
    loadPreferences: async () => {
      throw new Error('a path: /home/someone/private');
    },
  });
});

afterAll(async () => {
  await site.loopback.close();
  rmSync(site.folder, { recursive: true });
});

describe('who is let in', () => {
  test('the key in the address gives a strict cookie, a page that moves on, and no key in it', async () => {
    const first = await site.ask({ path: `/?key=${site.key}` });
    expect(first.status).toBe(200);
    expect(String(first.headers['set-cookie'])).toMatch(/^rimward-\d+=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/);
    expect(first.body).not.toContain(site.key);
    expect(first.headers['referrer-policy']).toBe('no-referrer');
    const page = await site.ask({ path: '/', headers: site.asPage });
    expect(page.status).toBe(200);
    expect(page.body).toContain('<script src="./page-host.js">');
  });

  test.each([
    ['no cookie', {}],
    ['an empty cookie', { cookie: 'x=' }],
    ['a guessed cookie', { cookie: `rimward-0=${'A'.repeat(43)}` }],
  ])('%s is refused everywhere', async (_title, headers) => {
    for (const path of ['/', '/index.html', '/assets/page.js', '/page-host.js', '/host/hostInfo', '/absent']) {
      const answer = await site.ask({ path, headers });
      expect(answer.status).toBe(403);
      expect(answer.body).not.toContain(site.key);
    }
  });

  test('a key that differs in its last character, or is only its beginning, is refused', async () => {
    const other = site.key.slice(0, -1) + (site.key.endsWith('A') ? 'B' : 'A');
    for (const key of [other, site.key.slice(0, -1), `${site.key}A`, '']) {
      expect((await site.ask({ path: `/?key=${key}` })).status).toBe(403);
      const cookie = `rimward-${site.loopback.port}=${key}`;
      expect((await site.ask({ path: '/', headers: { cookie } })).status).toBe(403);
    }
    expect(sameSecret('a', 'a')).toBe(true);
    expect(sameSecret('a', 'b')).toBe(false);
  });

  test('a name that was pointed at this machine is refused by its Host', async () => {
    for (const host of [
      'evil.example',
      `evil.example:${site.loopback.port}`,
      'localhost',
      '127.0.0.1',
      '127.0.0.1:1',
    ]) {
      expect((await site.ask({ headers: { ...site.asPage, host } })).status).toBe(403);
      expect((await site.ask({ path: `/?key=${site.key}`, headers: { host } })).status).toBe(403);
    }
  });

  test('a script of another origin is refused, with the cookie and without', async () => {
    for (const origin of [
      'http://evil.example',
      'null',
      `http://localhost:${site.loopback.port}`,
      'http://127.0.0.1:1',
    ]) {
      expect((await site.call('savePreference', ['theme', 'x'], { origin })).status).toBe(403);
      expect((await site.ask({ headers: { ...site.asPage, origin } })).status).toBe(403);
      expect((await site.ask({ path: `/?key=${site.key}`, headers: { origin } })).status).toBe(403);
    }
    expect((await site.ask({ headers: { ...site.asPage, 'sec-fetch-site': 'cross-site' } })).status).toBe(403);
    expect(saved).toEqual([]);
  });

  test('a call without an Origin, or without the page header, is refused', async () => {
    const bare = { ...site.asPage, 'content-type': 'application/json' };
    const origin = `http://127.0.0.1:${site.loopback.port}`;
    const post = (headers: Record<string, string>) =>
      site.ask({ method: 'POST', path: '/host/savePreference', headers, body: '["theme","x"]' });
    expect((await post({ ...bare, 'x-rimward-host': '1' })).status).toBe(403);
    expect((await post({ ...bare, origin })).status).toBe(403);
    expect(saved).toEqual([]);
  });

  test('nothing listens on the other addresses of this machine', async () => {
    const addresses = Object.values(networkInterfaces()).flatMap((list) => list ?? []);
    for (const { address, internal, family } of addresses) {
      if (internal || family !== 'IPv4') continue;
      const reached = await new Promise((resolve) => {
        const socket = connect({ host: address, port: site.loopback.port, timeout: 1000 });
        for (const event of ['error', 'timeout']) socket.once(event, () => resolve(false));
        socket.once('connect', () => resolve(true));
        socket.once('close', () => socket.destroy());
      });
      expect(reached).toBe(false);
    }
  });
});

describe('what is served', () => {
  test.each([
    '/../outside.json',
    '/assets/../../outside.json',
    '/%2e%2e/outside.json',
    '/..%2foutside.json',
    '/%2e%2e%2foutside.json',
    '/..%5coutside.json',
    '/..\\outside.json',
    '//outside.json',
    '/assets/%00/../../outside.json',
    '/%252e%252e/outside.json',
    '/linked.json',
    '/etc/passwd',
    '//etc/passwd',
    'file:///etc/passwd',
    'http://other.example/outside.json',
  ])('%s leads nowhere', async (path) => {
    const answer = await site.ask({ path, headers: site.asPage });
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.body).not.toContain(SECRET_OUTSIDE);
    expect(answer.body).not.toContain('root:');
  });

  test('a file that was there at the start and has gone since is not there, and its neighbours still are', async () => {
    const path = join(site.folder, 'renderer', 'assets', 'page.js');
    const text = readFileSync(path);
    const complained = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    try {
      rmSync(path);
      for (const method of ['GET', 'HEAD']) {
        const answer = await site.ask({ method, path: '/assets/page.js', headers: site.asPage });
        expect(answer.status).toBe(404);
      }
      expect((await site.ask({ path: '/', headers: site.asPage })).status).toBe(200);
      expect(complained).not.toHaveBeenCalled();
    } finally {
      writeFileSync(path, text);
      complained.mockRestore();
    }
    expect((await site.ask({ path: '/assets/page.js', headers: site.asPage })).status).toBe(200);
  });

  test('every answer, refusals too, carries the rules of the page', async () => {
    const answers = [
      await site.ask({ headers: site.asPage }),
      await site.ask({}),
      await site.ask({ path: '/absent', headers: site.asPage }),
      await site.ask({ method: 'DELETE' }),
      await site.call('hostInfo', []),
    ];
    expect(answers.map((answer) => answer.status)).toEqual([200, 403, 404, 405, 200]);
    for (const { headers } of answers) {
      expect(headers['content-security-policy']).toContain("default-src 'none'");
      const rules = String(headers['content-security-policy']);
      // the one freedom given: the membrane's kernel is compiled in the page's worker; script from text stays forbidden
      expect(rules).toContain("script-src 'self' 'wasm-unsafe-eval';");
      expect(rules.replace(" 'wasm-unsafe-eval'", '')).not.toMatch(/unsafe|\*|http/);
      expect(headers['x-content-type-options']).toBe('nosniff');
      expect(headers['cache-control']).toBe('no-store');
      expect(headers['cross-origin-opener-policy']).toBe('same-origin');
      expect(headers['cross-origin-embedder-policy']).toBe('require-corp');
      expect(headers['access-control-allow-origin']).toBeUndefined();
    }
  });

  test('methods other than GET, HEAD and POST are refused; HEAD sends no body', async () => {
    for (const method of ['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE']) {
      expect((await site.ask({ method, headers: site.asPage })).status).toBe(405);
    }
    const head = await site.ask({ method: 'HEAD', headers: site.asPage });
    expect([head.status, head.body]).toEqual([200, '']);
    expect(Number(head.headers['content-length'])).toBeGreaterThan(10);
  });
});

describe('calls', () => {
  test('a good call is answered', async () => {
    expect(JSON.parse((await site.call('hostInfo', [])).body)).toEqual({
      ok: true,
      value: { version: '1', platform: 'test', dataFolder: '/nowhere', notices: [] },
    });
    await site.call('savePreference', ['theme', 'projector']);
    expect(saved).toEqual([['theme', 'projector']]);
  });

  test.each([
    ['an unknown call', 'constructor', []],
    ['a call this shell does not offer', 'openTextFile', []],
    ['too many arguments', 'hostInfo', [1]],
    ['no list', 'hostInfo', { length: 0 }],
    ['a key that is a path', 'savePreference', ['../x', 1]],
    ['a value that is an object', 'savePreference', ['theme', {}]],
    ['a person with an unknown key', 'savePerson', [{ id: 'x', name: 'y', colour: 'teal', extra: true }]],
  ])('%s is refused', async (_title, method, args) => {
    const reply = JSON.parse((await site.call(method, args)).body);
    expect(reply.ok).toBe(false);
    expect(reply.problems.length).toBeGreaterThan(0);
  });

  test('a fault of ours reaches the page without its insides', async () => {
    const terminal = vi.spyOn(console, 'error').mockImplementation(() => {});
    const { body } = await site.call('loadPreferences', []);
    expect(terminal).toHaveBeenCalledOnce();
    terminal.mockRestore();
    expect(JSON.parse(body).ok).toBe(false);
    expect(body).not.toContain('someone');
  });

  test('a body that is no JSON, of another type, or too large is refused, and the server goes on', async () => {
    const headers = { ...site.asPage, origin: `http://127.0.0.1:${site.loopback.port}`, 'x-rimward-host': '1' };
    const post = (type: string, body: string | Buffer, more: Record<string, string> = {}) =>
      site.ask({
        method: 'POST',
        path: '/host/hostInfo',
        headers: { ...headers, 'content-type': type, ...more },
        body,
      });
    expect((await post('application/json', '{"cut')).status).toBe(400);
    expect((await post('text/plain', '[]')).status).toBe(415);
    // The server may answer 413 or hang up while the rest is still on its way; it must not take it in.
    const large = await post('application/json', Buffer.alloc(25_000_000, 0x20)).catch(() => ({ status: 413 }));
    expect(large.status).toBe(413);
    const unannounced = { 'transfer-encoding': 'chunked' };
    const chunked = await post('application/json', Buffer.alloc(25_000_000, 0x20), unannounced).catch(() => ({
      status: 413,
    }));
    expect(chunked.status).toBe(413);
    const header = await site
      .ask({ headers: { ...site.asPage, 'x-long': 'a'.repeat(40_000) } })
      .catch(() => ({ status: 431 }));
    expect(header.status).toBe(431);
    expect((await site.call('hostInfo', [])).status).toBe(200);
  });
});
