import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { RimwardHost } from '../../src-main/ipc/contract.ts';
import { type Loopback, type LoopbackPatience, startLoopback } from '../../src-main/loopback/server.ts';

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

export interface Asked {
  readonly method?: string;
  /** Sent as it stands: nothing resolves `..` on the way. */
  readonly path?: string;
  readonly headers?: Record<string, string>;
  readonly body?: string | Buffer;
}

export interface TestSite {
  readonly loopback: Loopback;
  readonly folder: string;
  readonly key: string;
  /** Headers of the page itself after its first visit. */
  readonly asPage: Record<string, string>;
  readonly ask: (asked: Asked) => Promise<Answer>;
  readonly call: (method: string, args: unknown, headers?: Record<string, string>) => Promise<Answer>;
}

export const SECRET_OUTSIDE = 'outside the page folder';

function makePage(): string {
  const folder = mkdtempSync(join(tmpdir(), 'page-'));
  const page = join(folder, 'renderer');
  mkdirSync(join(page, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'outside.json'), JSON.stringify(SECRET_OUTSIDE));
  writeFileSync(join(folder, 'page-host.js'), '// host');
  writeFileSync(join(page, 'index.html'), '<!doctype html><html><head></head><body><h1>Test page</h1></body></html>');
  writeFileSync(join(page, 'assets', 'page.js'), 'export {};');
  symlinkSync(join(folder, 'outside.json'), join(page, 'linked.json'));
  return folder;
}

function send(port: number, { method = 'GET', path = '/', headers = {}, body }: Asked): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, method, path, headers, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => {
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body: Buffer.concat(chunks).toString(),
        });
      });
      response.on('error', reject);
    });
    sent.on('error', reject);
    sent.end(body);
  });
}

/** A loopback server with a page of two files, and a way to ask it anything. */
export async function openTestSite(services: Partial<RimwardHost>, patience?: LoopbackPatience): Promise<TestSite> {
  const folder = makePage();
  const loopback = await startLoopback({
    pageFolder: join(folder, 'renderer'),
    pageHostFile: join(folder, 'page-host.js'),
    services,
    ...(patience === undefined ? {} : { patience }),
  });
  const key = new URL(loopback.address).searchParams.get('key') ?? '';
  const origin = `http://127.0.0.1:${loopback.port}`;
  const asPage = { cookie: `rimward-${loopback.port}=${key}` };
  const ask = (asked: Asked): Promise<Answer> => send(loopback.port, asked);
  const call = (method: string, args: unknown, headers: Record<string, string> = {}): Promise<Answer> =>
    ask({
      method: 'POST',
      path: `/host/${method}`,
      headers: { ...asPage, origin, 'content-type': 'application/json', 'x-rimward-host': '1', ...headers },
      body: JSON.stringify(args),
    });
  return { loopback, folder, key, asPage, ask, call };
}
