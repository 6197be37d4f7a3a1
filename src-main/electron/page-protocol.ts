import { readFile } from 'node:fs/promises';
import { protocol, type Session } from 'electron';
import { listPageFiles } from '../files/page-files.ts';
import { PAGE_HEADERS } from '../files/page-headers.ts';
import { isOurPage, SCHEME } from './page-address.ts';

/** Must run before the application is ready. */
export function declarePageScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Answers `app://rimward/...` from the built page's list of files; every other address gets 404. */
export function servePage(session: Session, pageFolder: string): void {
  const files = listPageFiles(pageFolder);
  session.protocol.handle(SCHEME, async (request) => {
    const file =
      isOurPage(request.url) && request.method === 'GET' ? files.get(new URL(request.url).pathname) : undefined;
    if (file === undefined)
      return new Response('There is nothing here.', { status: 404, headers: { ...PAGE_HEADERS } });
    const body = new Uint8Array(await readFile(file.path));
    return new Response(body, { headers: { ...PAGE_HEADERS, 'content-type': file.type } });
  });
}
