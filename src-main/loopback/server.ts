import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type RequestListener, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { pipeline } from 'node:stream/promises';
import { listPageFiles, type PageFile, readPageFile } from '../files/page-files.ts';
import { PAGE_HEADERS } from '../files/page-headers.ts';
import { answerCall } from '../ipc/answer.ts';
import { DOWNLOAD_ADDRESS, HOST_ADDRESS, UPLOAD_ADDRESS } from '../ipc/contract.ts';
import { bareName } from '../ipc/store-messages.ts';
import type { NamedFile } from '../store/file-jobs.ts';
import { REPORT_ADDRESS, reportHeaders } from '../store/report-pages.ts';
import { type Access, createAccess, isFirstVisit, refusal } from './access.ts';
import { BadRequest, readJsonBody } from './body.ts';
import type { Exchange, UploadKind } from './exchange.ts';
import { withPageHost } from './page-with-host.ts';
import type { LoopbackServices } from './services.ts';

/** Largest call, bytes: the largest text (20 million characters) with room for what JSON adds to it. */
const LARGEST_BODY = 24_000_000;
const HEADERS_BYTES = 16_384;
const MOST_HEADERS = 64;
const MOST_CONNECTIONS = 128;

/** How long a client may take before it is cut, ms. Assumed: everything on this machine is far quicker. */
export interface LoopbackPatience {
  /** To send the head of a request. */
  readonly head_ms: number;
  /** To send all of a request; the largest file over the slowest disk. */
  readonly request_ms: number;
  /** With nothing going either way: a reader that does not read, a call that is not answered. */
  readonly silence_ms: number;
}
const PATIENCE: LoopbackPatience = { head_ms: 10_000, request_ms: 60_000, silence_ms: 120_000 };

export interface LoopbackOptions {
  /** Folder of the built page. */
  readonly pageFolder: string;
  /** The built script that puts the host interface on the page. */
  readonly pageHostFile: string;
  readonly services: LoopbackServices;
  /** 0, the default, takes any free port. */
  readonly port?: number;
  readonly patience?: LoopbackPatience;
}

export interface Loopback {
  /** With the key in it: for the person's eyes and browser only. */
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

interface Site {
  readonly files: ReadonlyMap<string, PageFile>;
  readonly services: LoopbackServices;
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

const nothingHere = (response: ServerResponse): void => sendText(response, 404, 'There is nothing here.');

async function sendFile(response: ServerResponse, file: PageFile, head: boolean): Promise<void> {
  const body = await readPageFile(file);
  if (body === null) return nothingHere(response);
  send(response, 200, file.type, file.type.startsWith('text/html') ? withPageHost(body.toString('utf8')) : body, head);
}

async function sendReport(
  { headers }: IncomingMessage,
  response: ServerResponse,
  exchange: Exchange,
  path: string,
): Promise<void> {
  const page = await exchange.reports.page(path, headers['accept-language'] ?? null);
  if (page === null) return nothingHere(response);
  response.writeHead(page.status, {
    ...reportHeaders(page.html),
    'content-length': Buffer.byteLength(page.html),
  });
  response.end(page.html);
}

/** Sends a file that was written for the person, to be kept by the browser under its name. */
async function sendDownload(response: ServerResponse, file: NamedFile): Promise<void> {
  try {
    const { size } = await stat(file.path);
    response.writeHead(200, {
      ...PAGE_HEADERS,
      'content-type': 'application/octet-stream',
      'content-length': size,
      'content-disposition': `attachment; filename*=UTF-8''${encodeURIComponent(file.name)}`,
    });
    await pipeline(createReadStream(file.path), response);
  } finally {
    await file.after?.();
  }
}

const UPLOAD_KINDS: readonly UploadKind[] = ['bundle', 'store'];

async function receiveUpload(request: IncomingMessage, exchange: Exchange, address: URL): Promise<string> {
  const kind = UPLOAD_KINDS.find((one) => address.pathname === UPLOAD_ADDRESS + one);
  const name = bareName.safeParse(address.searchParams.get('name'));
  if (kind === undefined) throw new BadRequest(404, 'There is nothing here.');
  if (request.headers['content-type'] !== 'application/octet-stream') throw new BadRequest(415, 'not a file');
  // A name is only for the person to read; one that is no plain name does not keep the file out.
  const reply = await exchange.receive(kind, name.success ? name.data : 'a file', request);
  return JSON.stringify(reply);
}

async function answerPost(request: IncomingMessage, response: ServerResponse, site: Site, address: URL): Promise<void> {
  const { exchange } = site.services;
  const json = (text: string): void => send(response, 200, 'application/json; charset=utf-8', text, false);
  if (exchange !== undefined && address.pathname.startsWith(UPLOAD_ADDRESS)) {
    return json(await receiveUpload(request, exchange, address));
  }
  if (!address.pathname.startsWith(HOST_ADDRESS)) return nothingHere(response);
  const args = await readJsonBody(request, LARGEST_BODY);
  json(JSON.stringify(await answerCall(site.services, address.pathname.slice(HOST_ADDRESS.length), args)));
}

async function answerGet(request: IncomingMessage, response: ServerResponse, site: Site, path: string): Promise<void> {
  const head = request.method === 'HEAD';
  const { exchange } = site.services;
  const file = site.files.get(path);
  if (file !== undefined) return sendFile(response, file, head);
  if (exchange === undefined || head) return nothingHere(response);
  if (path.startsWith(REPORT_ADDRESS)) return sendReport(request, response, exchange, path);
  const ready = path.startsWith(DOWNLOAD_ADDRESS) ? exchange.take(path.slice(DOWNLOAD_ADDRESS.length)) : null;
  return ready === null ? nothingHere(response) : sendDownload(response, ready);
}

async function answer(request: IncomingMessage, response: ServerResponse, site: Site): Promise<void> {
  if (request.rawHeaders.length > 2 * MOST_HEADERS) throw new BadRequest(431, 'too many headers');
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
  if (method === 'POST') return answerPost(request, response, site, address);
  return answerGet(request, response, site, address.pathname);
}

/** What Node throws when the other end hung up before all was said: nobody is left to be answered. */
const HUNG_UP = new Set(['ECONNRESET', 'EPIPE', 'ERR_STREAM_PREMATURE_CLOSE']);

async function answerSafely(request: IncomingMessage, response: ServerResponse, site: Site): Promise<void> {
  try {
    await answer(request, response, site);
  } catch (fault) {
    if (HUNG_UP.has((fault as NodeJS.ErrnoException).code ?? '')) return void response.destroy();
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

/** A server that bounds what one client may take of it: size, number, and time. */
function patientServer(patience: LoopbackPatience, answered: RequestListener): Server {
  const server = createServer(
    {
      maxHeaderSize: HEADERS_BYTES,
      headersTimeout: patience.head_ms,
      requestTimeout: patience.request_ms,
      keepAliveTimeout: 5_000,
      // Node looks for clients that are too slow only this often; its own half minute would be added to the limits.
      connectionsCheckingInterval: Math.min(1000, patience.head_ms / 4),
    },
    answered,
  );
  server.maxConnections = MOST_CONNECTIONS;
  // None is dropped in silence, or the one that would refuse the request could be the one; `answer` counts them.
  server.maxHeadersCount = 0;
  server.timeout = patience.silence_ms;
  return server;
}

/**
 * Serves the page to browsers of this machine: on 127.0.0.1 only, to who holds the key, from a fixed list of files.
 * Rejects when the page is not built or the port is taken.
 */
export async function startLoopback(options: LoopbackOptions): Promise<Loopback> {
  const files = new Map(listPageFiles(options.pageFolder));
  files.set('/page-host.js', { path: options.pageHostFile, type: 'text/javascript; charset=utf-8' });
  let site: Site | null = null;
  const server = patientServer(options.patience ?? PATIENCE, (request, response) => {
    if (site !== null) void answerSafely(request, response, site);
    else response.destroy();
  });
  const port = await listen(server, options.port ?? 0);
  const access = createAccess(port);
  site = { files, services: options.services, access, port };
  return {
    address: `http://127.0.0.1:${port}/?key=${access.key}`,
    port,
    close: async () => {
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
      await options.services.exchange?.close();
    },
  };
}
