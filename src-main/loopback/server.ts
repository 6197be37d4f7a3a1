import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { listPageFiles, type PageFile } from '../files/page-files.ts';
import { PAGE_HEADERS } from '../files/page-headers.ts';
import { answerCall } from '../ipc/answer.ts';
import { HOST_ADDRESS, type RimwardHost } from '../ipc/contract.ts';
import { type Access, createAccess, isFirstVisit, refusal } from './access.ts';
import { BadRequest, readJsonBody } from './body.ts';
import { withPageHost } from './page-with-host.ts';

/** Largest call, bytes: the largest text (20 million characters) with room for what JSON adds to it. */
const LARGEST_BODY = 24_000_000;
const HEADERS_BYTES = 16_384;

export interface LoopbackOptions {
  /** Folder of the built page. */
  readonly pageFolder: string;
  /** The built script that puts the host interface on the page. */
  readonly pageHostFile: string;
  readonly services: Partial<RimwardHost>;
  /** 0, the default, takes any free port. */
  readonly port?: number;
}

export interface Loopback {
  /** With the key in it: for the person's eyes and browser only. */
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

interface Site {
  readonly files: ReadonlyMap<string, PageFile>;
  readonly services: Partial<RimwardHost>;
  readonly access: Access;
  readonly port: number;
}

function send(response: ServerResponse, status: number, type: string, body: string | Buffer, head: boolean): void {
  response.writeHead(status, { ...PAGE_HEADERS, 'content-type': type, 'content-length': Buffer.byteLength(body) });
  response.end(head ? undefined : body);
}

const sendText = (response: ServerResponse, status: number, text: string): void =>
  send(response, status, 'text/plain; charset=utf-8', `${text}\n`, false);

/** A page rather than a redirect: the move to `/` is then our own page's, and the strict cookie goes along. */
function welcome(response: ServerResponse, access: Access): void {
  response.setHeader('set-cookie', `${access.cookie}=${access.key}; Path=/; HttpOnly; SameSite=Strict`);
  const page =
    '<!doctype html><meta http-equiv="refresh" content="0;url=/"><link rel="icon" href="data:,"><title>Rimward</title>';
  send(response, 200, 'text/html; charset=utf-8', page, false);
}

async function sendFile(response: ServerResponse, file: PageFile, head: boolean): Promise<void> {
  const body = await readFile(file.path);
  send(response, 200, file.type, file.type.startsWith('text/html') ? withPageHost(body.toString('utf8')) : body, head);
}

async function answer(request: IncomingMessage, response: ServerResponse, site: Site): Promise<void> {
  const method = request.method ?? '';
  if (!['GET', 'HEAD', 'POST'].includes(method)) {
    response.setHeader('allow', 'GET, HEAD, POST');
    return sendText(response, 405, 'Only GET, HEAD and POST are answered.');
  }
  // Joined, not resolved: "//name/x" and "http://name/x" would otherwise be read as addresses of their own.
  if (!request.url?.startsWith('/')) throw new BadRequest(400, 'not an address of this page');
  const address = new URL(`http://loopback.invalid${request.url}`);
  if (isFirstVisit(request, address, site.access, site.port)) return welcome(response, site.access);
  const why = refusal(request, site.access, site.port);
  if (why !== null)
    return sendText(response, 403, `Refused (${why}). Open the address that Rimward printed when it started.`);
  if (method === 'POST') {
    if (!address.pathname.startsWith(HOST_ADDRESS)) return sendText(response, 404, 'There is nothing here.');
    const args = await readJsonBody(request, LARGEST_BODY);
    const reply = await answerCall(site.services, address.pathname.slice(HOST_ADDRESS.length), args);
    return send(response, 200, 'application/json; charset=utf-8', JSON.stringify(reply), false);
  }
  const file = site.files.get(address.pathname);
  if (file === undefined) return sendText(response, 404, 'There is nothing here.');
  return sendFile(response, file, method === 'HEAD');
}

async function answerSafely(request: IncomingMessage, response: ServerResponse, site: Site): Promise<void> {
  try {
    await answer(request, response, site);
  } catch (fault) {
    const bad = fault instanceof BadRequest;
    if (!bad) console.error('A request could not be answered:', fault);
    if (response.headersSent) return void response.destroy();
    response.setHeader('connection', 'close');
    sendText(response, bad ? fault.status : 500, bad ? fault.message : 'A fault of ours; the terminal says more.');
  }
}

function listen(server: Server, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: '127.0.0.1', port, exclusive: true }, () => resolve((server.address() as AddressInfo).port));
  });
}

/**
 * Serves the page to browsers of this machine: on 127.0.0.1 only, to who holds the key, from a fixed list of files.
 * Rejects when the page is not built or the port is taken.
 */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  const files = new Map(listPageFiles(options.pageFolder));
  files.set('/page-host.js', { path: options.pageHostFile, type: 'text/javascript; charset=utf-8' });
  let site: Site | null = null;
  const server = createServer(
    { maxHeaderSize: HEADERS_BYTES, headersTimeout: 10_000, requestTimeout: 60_000, keepAliveTimeout: 5_000 },
    (request, response) => {
      if (site !== null) void answerSafely(request, response, site);
      else response.destroy();
    },
  );
  server.maxConnections = 128;
  const port = await listen(server, options.port ?? 0);
  const access = createAccess(port);
  site = { files, services: options.services, access, port };
  return {
    address: `http://127.0.0.1:${port}/?key=${access.key}`,
    port,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
