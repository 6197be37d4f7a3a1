import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { HOST_HEADER } from '../ipc/contract.ts';

/**
 * Who may talk to the loopback server. The address printed for the person carries a secret once (`/?key=...`). The
 * answer to that first visit puts it into a cookie that scripts cannot read and other sites cannot send, and moves the
 * page on to `/`, so that the secret is in no later address, referrer or page. A page of another site that knows the
 * port fails at the cookie; one whose name was pointed at 127.0.0.1 fails at the Host; a script of either fails at the
 * Origin. The cookie's name holds the port, because browsers share cookies between ports of one host.
 */
export interface Access {
  readonly key: string;
  readonly cookie: string;
}

export function createAccess(port: number): Access {
  return { key: randomBytes(32).toString('base64url'), cookie: `rimward-${port}` };
}

const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

/** Compares in a time that tells nothing about where, or how far, the two differ. */
export function sameSecret(given: string, expected: string): boolean {
  return timingSafeEqual(digest(given), digest(expected));
}

function cookieValue(request: IncomingMessage, name: string): string {
  for (const pair of (request.headers.cookie ?? '').split(';')) {
    const [key, value] = pair.trim().split('=', 2);
    if (key === name) return value ?? '';
  }
  return '';
}

/** Why a request may not be answered, or null when it may. `port` is the one this server listens on. */
export function refusal(request: IncomingMessage, access: Access, port: number): string | null {
  const host = `127.0.0.1:${port}`;
  const site = request.headers['sec-fetch-site'];
  if (request.headers.host !== host) return 'wrong Host';
  if (request.headers.origin !== undefined && request.headers.origin !== `http://${host}`) return 'wrong Origin';
  if (!sameSecret(cookieValue(request, access.cookie), access.key)) return 'no key';
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return 'asked for by another site';
  if (request.method === 'POST') {
    if (request.headers.origin === undefined) return 'no Origin';
    if (request.headers[HOST_HEADER] !== '1') return 'not a call of the page';
  }
  return null;
}

/** True for the first visit: the right Host, and the key in the address. */
export function isFirstVisit(request: IncomingMessage, address: URL, access: Access, port: number): boolean {
  if (request.method !== 'GET' || address.pathname !== '/') return false;
  if (request.headers.host !== `127.0.0.1:${port}` || request.headers.origin !== undefined) return false;
  return sameSecret(address.searchParams.get('key') ?? '', access.key);
}
