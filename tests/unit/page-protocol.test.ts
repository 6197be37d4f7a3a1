/** What the window's own protocol answers its page with; over the stand-in for Electron, a folder of its own for a page. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { servePage } from '../../src-main/electron/page-protocol.ts';
import { PAGE_HEADERS } from '../../src-main/files/page-headers.ts';
import type { ReportPages } from '../../src-main/store/report-pages.ts';
import * as double from '../support/electron-double.ts';

vi.mock('electron', () => import('../support/electron-double.ts'));

const FILES = {
  'index.html': '<!doctype html><title>page</title>',
  'assets/page.js': 'export const page = 1;',
  'assets/page.css': 'body { margin: 0 }',
};
/** No report is kept: every address is the page's. */
const noReports = { page: async () => null } as unknown as ReportPages;

let folder: string;

const place = (name: string): string => join(folder, name);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'page-protocol-'));
  mkdirSync(place('assets'));
  for (const [name, text] of Object.entries(FILES)) writeFileSync(place(name), text);
  double.startAnew();
  serve(noReports);
});
afterEach(() => rmSync(folder, { recursive: true }));

function serve(reports: ReportPages): void {
  servePage(double.session.defaultSession as unknown as Parameters<typeof servePage>[0], folder, reports);
}

async function answer(address: string, method = 'GET'): Promise<Response> {
  const handler = double.asked.protocols.get('app');
  if (handler === undefined) throw new Error('nobody answers the page');
  return handler(new Request(address, { method }));
}

const FOUND: readonly (readonly [string, string, string])[] = [
  ['app://rimward/', FILES['index.html'], 'text/html; charset=utf-8'],
  ['app://rimward/index.html', FILES['index.html'], 'text/html; charset=utf-8'],
  ['app://rimward/assets/page.js?v=1', FILES['assets/page.js'], 'text/javascript; charset=utf-8'],
  ['app://rimward/assets/page.css', FILES['assets/page.css'], 'text/css; charset=utf-8'],
];

async function isNotThere(address: string, method = 'GET'): Promise<void> {
  const refused = await answer(address, method);
  expect([refused.status, await refused.text()], address).toEqual([404, 'There is nothing here.']);
  for (const [name, value] of Object.entries(PAGE_HEADERS)) expect(refused.headers.get(name), name).toBe(value);
}

describe("the window's own protocol", () => {
  test.each(FOUND)('answers %s with the file, its type and the rules of the page', async (address, text, type) => {
    const found = await answer(address);
    expect([found.status, found.headers.get('content-type'), await found.text()]).toEqual([200, type, text]);
    for (const [name, value] of Object.entries(PAGE_HEADERS)) expect(found.headers.get(name), name).toBe(value);
  });

  test('says that a file is not there which has gone since the start; its neighbours still are, and so is it once it is back', async () => {
    rmSync(place('assets/page.js'));
    await isNotThere('app://rimward/assets/page.js');
    expect((await answer('app://rimward/assets/page.css')).status).toBe(200);
    expect((await answer('app://rimward/')).status).toBe(200);
    writeFileSync(place('assets/page.js'), 'export const page = 2;');
    expect(await (await answer('app://rimward/assets/page.js')).text()).toBe('export const page = 2;');
  });

  test('says that the page itself is not there when its folder has gone', async () => {
    rmSync(folder, { recursive: true });
    for (const [address] of FOUND) await isNotThere(address);
    mkdirSync(folder);
  });

  test('does not take another fault of a file for one that has gone', async () => {
    rmSync(place('assets/page.js'));
    mkdirSync(place('assets/page.js'));
    await expect(answer('app://rimward/assets/page.js')).rejects.toThrow('EISDIR');
  });

  test('serves nothing that came after the start, and nothing outside its folder', async () => {
    writeFileSync(place('assets/late.js'), 'late');
    writeFileSync(`${folder}.js`, 'outside');
    const addresses = [
      'assets/late.js',
      'absent',
      'assets/',
      '../page-protocol.js',
      `..%2f${folder.split('/').pop()}.js`,
    ];
    for (const path of addresses) await isNotThere(`app://rimward/${path}`);
    rmSync(`${folder}.js`);
  });

  test.each(['POST', 'PUT', 'DELETE', 'HEAD', 'OPTIONS'])('answers no %s', async (method) => {
    await isNotThere('app://rimward/', method);
  });

  test.each(['app://other/', 'app://rimward.a.example/', 'app://a:b@rimward/', 'https://rimward/'])(
    'answers nothing to %s',
    async (address) => {
      // a plain object where a Request may not carry such an address
      const request = { url: address, method: 'GET', headers: new Headers() } as unknown as Request;
      const refused = await double.asked.protocols.get('app')?.(request);
      expect(refused?.status).toBe(404);
    },
  );

  test('answers a report in the language that is asked for, under the rules of reports', async () => {
    const asked: unknown[] = [];
    serve({
      page: async (path: string, language: string | null) => {
        asked.push([path, language]);
        return path.startsWith('/report/') ? { status: 409, html: '<p>not yet</p>' } : null;
      },
    } as unknown as ReportPages);
    const report = await double.asked.protocols.get('app')?.(
      new Request('app://rimward/report/attempt/x', { headers: { 'accept-language': 'es' } }),
    );
    expect([report?.status, await report?.text()]).toEqual([409, '<p>not yet</p>']);
    expect(report?.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(asked).toEqual([['/report/attempt/x', 'es']]);
    expect((await answer('app://rimward/')).status).toBe(200);
  });
});
