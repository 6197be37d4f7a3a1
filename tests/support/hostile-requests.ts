import type { Random } from '../../physics/core/random.ts';
import { HOST_METHODS } from '../../src-main/ipc/contract.ts';

/** What a hostile request may know: a page of another site knows the port, another program of this machine more. */
export interface HostileTarget {
  readonly port: number;
  /** A cookie header that is let in; used where the attack lies elsewhere. */
  readonly cookie: string;
}

export interface HostileRequest {
  readonly bytes: Buffer;
  /** False: whatever it asks, nothing but a refusal may come back. */
  readonly mayBeServed: boolean;
  /** True: it is not a whole request, so the client hangs up at once and may get no answer at all. */
  readonly breaksOff?: boolean;
  readonly kind: string;
}

type Pick = <T>(from: readonly T[]) => T;
const picking =
  (random: Random): Pick =>
  (from) =>
    from[Math.floor(random.uniform() * from.length)]!;

const UPWARD = [
  '..',
  '%2e%2e',
  '%2E%2e',
  '.%2e',
  '%252e%252e',
  '..%00',
  '%c0%ae%c0%ae',
  '%uff0e%uff0e',
  '..;',
  '....//',
];
const BETWEEN = ['/', '%2f', '%5c', '\\', '//', '%252f', '%c0%af', '/./'];
const WANTED = [
  'outside.json',
  'etc/passwd',
  'linked.json',
  'C:/Windows/win.ini',
  'C:%5cWindows%5cwin.ini',
  '%5c%5c?%5cC:%5coutside.json',
  'index.html::$DATA',
  'index.html.',
  'INDEX~1.HTM',
  'CON',
  'NUL.html',
  'index.html%00.json',
  'assets/page.js/../../outside.json',
  'proc/self/environ',
  'package.json',
  '__proto__',
  'constructor',
];
const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH', 'TRACE', 'PROPFIND', 'CONNECT'];
const JUNK_VALUES = [
  'null',
  '[]',
  '{}',
  '[[]]',
  '"x"',
  '1e999',
  '-0',
  '[null]',
  '[{"__proto__":{"ok":true}}]',
  '[1,2,3]',
  '',
];

const join = (lines: readonly string[], body = ''): Buffer =>
  Buffer.from(`${[...lines, 'Connection: close'].join('\r\n')}\r\n\r\n${body}`, 'latin1');

function somePath(random: Random, pick: Pick): string {
  const climbs = Math.floor(random.uniform() * 8);
  const start = pick(['/', '/assets/', '//', '/host/', '/download/', '/report/attempt/', '/upload/']);
  return start + Array.from({ length: climbs }, () => pick(UPWARD) + pick(BETWEEN)).join('') + pick(WANTED);
}

function nested(depth: number): string {
  return '['.repeat(depth) + ']'.repeat(depth);
}

function someBytes(random: Random, length: number): Buffer {
  return Buffer.from(Array.from({ length }, () => Math.floor(random.uniform() * 256)));
}

type Maker = (random: Random, pick: Pick, target: HostileTarget) => Omit<HostileRequest, 'kind'>;

/** One maker per kind of attack. */
const MAKERS: Readonly<Record<string, Maker>> = {
  'a path that climbs, from who is let in': (random, pick, { port, cookie }) => ({
    bytes: join([
      `${pick(['GET', 'HEAD'])} ${somePath(random, pick)} HTTP/1.1`,
      `Host: 127.0.0.1:${port}`,
      `Cookie: ${cookie}`,
    ]),
    mayBeServed: false,
  }),
  'a wrong key': (random, pick, { port }) => {
    const guess = pick([
      '',
      'A',
      'A'.repeat(43),
      someBytes(random, 32).toString('base64url'),
      'undefined',
      'null',
      '%00',
    ]);
    const cookie = pick([
      `rimward-${port}=${guess}`,
      `rimward-${port}=`,
      `rimward-${port + 1}=${guess}`,
      '; ; =',
      `x=${guess}`,
    ]);
    const path = pick(['/', `/?key=${guess}`, '/index.html', '/page-host.js', '/host/hostInfo', `/?key=&key=${guess}`]);
    return {
      bytes: join([`GET ${path} HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`]),
      mayBeServed: false,
    };
  },
  'another Host': (_random, pick, { port, cookie }) => {
    const host = pick([
      'a.example',
      `a.example:${port}`,
      `localhost:${port}`,
      '127.0.0.1',
      `127.0.0.1:${port}@a.example`,
      `[::1]:${port}`,
    ]);
    return {
      bytes: join([`GET ${pick(['/', '/index.html'])} HTTP/1.1`, `Host: ${host}`, `Cookie: ${cookie}`]),
      mayBeServed: false,
    };
  },
  'another Origin': (_random, pick, { port, cookie }) => {
    const origin = pick([
      'null',
      'http://a.example',
      `http://localhost:${port}`,
      `https://127.0.0.1:${port}`,
      'file://',
      '',
    ]);
    const lines = [
      `POST /host/${pick(HOST_METHODS)} HTTP/1.1`,
      `Host: 127.0.0.1:${port}`,
      `Origin: ${origin}`,
      `Cookie: ${cookie}`,
    ];
    return {
      bytes: join([...lines, 'X-Rimward-Host: 1', 'Content-Type: application/json', 'Content-Length: 2'], '[]'),
      mayBeServed: false,
    };
  },
  'a call of the page with junk in it': (random, pick, { port, cookie }) => {
    const body = pick([
      pick(JUNK_VALUES),
      nested(Math.floor(random.uniform() * 9000)),
      someBytes(random, 40).toString('latin1'),
    ]);
    const method = pick([
      ...HOST_METHODS,
      '__proto__',
      'constructor',
      'toString',
      '%00',
      '../hostInfo',
      'hostInfo/../savePerson',
    ]);
    const length = pick([Buffer.byteLength(body, 'latin1'), Buffer.byteLength(body, 'latin1') + 5, 0]);
    const lines = [`POST /host/${method} HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Origin: http://127.0.0.1:${port}`];
    const rest = [
      `Cookie: ${cookie}`,
      'X-Rimward-Host: 1',
      'Content-Type: application/json',
      `Content-Length: ${length}`,
    ];
    return { bytes: join([...lines, ...rest], body), mayBeServed: true, breaksOff: length > body.length };
  },
  'an upload or a download of nothing': (random, pick, { port, cookie }) => {
    const path = pick([
      '/upload/bundle?name=../../x',
      '/upload/store?name=',
      '/upload/x',
      '/download/../x',
      '/report/person/a/b%00',
    ]);
    const verb = path.startsWith('/upload') ? 'POST' : 'GET';
    const body = someBytes(random, Math.floor(random.uniform() * 300)).toString('latin1');
    const lines = [
      `${verb} ${path} HTTP/1.1`,
      `Host: 127.0.0.1:${port}`,
      `Origin: http://127.0.0.1:${port}`,
      `Cookie: ${cookie}`,
    ];
    const rest = ['X-Rimward-Host: 1', 'Content-Type: application/octet-stream', `Content-Length: ${body.length}`];
    return { bytes: join([...lines, ...rest], body), mayBeServed: true };
  },
  'another method or version': (random, pick, { port, cookie }) => {
    const line = `${pick(METHODS.slice(3))} ${somePath(random, pick)} ${pick(['HTTP/1.1', 'HTTP/1.0', 'HTTP/9.9', 'FTP/1.1'])}`;
    return { bytes: join([line, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`]), mayBeServed: false };
  },
  'two readings of one length': (_random, pick, { port, cookie }) => {
    const lines = [
      'POST /host/hostInfo HTTP/1.1',
      `Host: 127.0.0.1:${port}`,
      `Cookie: ${cookie}`,
      'Content-Type: application/json',
    ];
    const twice = pick([
      ['Content-Length: 2', 'Transfer-Encoding: chunked'],
      ['Content-Length: 2', 'Content-Length: 3'],
      ['Transfer-Encoding: chunked, identity'],
      ['Content-Length: -1'],
      ['Content-Length: 99999999999999999999'],
      ['Transfer-Encoding : chunked'],
    ]);
    return {
      bytes: join([...lines, ...twice], '0\r\n\r\nGET / HTTP/1.1\r\nHost: a.example\r\n\r\n'),
      mayBeServed: false,
    };
  },
  'a head that is too much': (random, pick, { port, cookie }) => {
    const many = Array.from({ length: pick([70, 600, 3000]) }, (_, k) => `X-${k}: ${k}`);
    const lines = [`GET / HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`];
    const long = `X-Long: ${'a'.repeat(17_000 + Math.floor(random.uniform() * 9000))}`;
    return { bytes: join([...lines, ...pick([many, [long]])]), mayBeServed: false };
  },
  'headers within headers': (_random, pick, { port, cookie }) => {
    const trick = pick(['X: a\r\n\tb', 'X: a\nSet-Cookie: x', 'X\0: a', ': a', 'Host: a.example', 'X: \x7f\x01']);
    return {
      bytes: join([`GET /absent HTTP/1.1`, `Host: 127.0.0.1:${port}`, trick, `Cookie: ${cookie}`]),
      mayBeServed: false,
    };
  },
  'no HTTP at all': (random, pick) => ({
    bytes: pick([
      someBytes(random, 1 + Math.floor(random.uniform() * 400)),
      Buffer.from('\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03', 'latin1'),
      Buffer.from('PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n'),
      Buffer.from('GET /\r\n\r\n'),
      Buffer.from('\r\n\r\n\r\n'),
    ]),
    mayBeServed: false,
    breaksOff: true,
  }),
  'a request that breaks off': (random, _pick, { port, cookie }) => {
    const whole = join([`GET / HTTP/1.1`, `Host: 127.0.0.1:${port}`, `Cookie: ${cookie}`, 'X-End: 1']);
    return {
      bytes: whole.subarray(0, Math.floor(random.uniform() * (whole.length - 4))),
      mayBeServed: false,
      breaksOff: true,
    };
  },
};

export const HOSTILE_KINDS: readonly string[] = Object.keys(MAKERS);

/** One hostile request, drawn from all kinds. */
export function hostileRequest(random: Random, target: HostileTarget): HostileRequest {
  const pick = picking(random);
  const kind = pick(HOSTILE_KINDS);
  return { ...MAKERS[kind]!(random, pick, target), kind };
}
