import { readFile } from 'node:fs/promises';
import { protocol, type Session } from 'electron';
import { listPageFiles } from '../files/page-files.ts';
import { PAGE_HEADERS } from '../files/page-headers.ts';
import { type ReportPages, reportHeaders } from '../store/report-pages.ts';
import { isOurPage, SCHEME } from './page-address.ts';

/** Must run before the application is ready. */
export function declarePageScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Answers `app://rimward/...` from the built page's list of files and with reports; every other address gets 404. */
export function servePage(session: Session, pageFolder: string, reports: ReportPages): void {
  const files = listPageFiles(pageFolder);
  session.protocol.handle(SCHEME, async (request) => {
    const path = isOurPage(request.url) && request.method === 'GET' ? new URL(request.url).pathname : '';
    const report = await reports.page(path, request.headers.get('accept-language'));
    if (report !== null) {
      return new Response(report.html, { status: report.status, headers: { ...reportHeaders(report.html) } });
    }
    const file = files.get(path);
    if (file === undefined)
      return new Response('There is nothing here.', { status: 404, headers: { ...PAGE_HEADERS } });
    const body = new Uint8Array(await readFile(file.path));
    return new Response(body, { headers: { ...PAGE_HEADERS, 'content-type': file.type } });
  });
}
