import { protocol, type Session } from 'electron';
import { listPageFiles, readPageFile } from '../files/page-files.ts';
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
    const bytes = file === undefined ? null : await readPageFile(file);
    if (file === undefined || bytes === null)
      return new Response('There is nothing here.', { status: 404, headers: { ...PAGE_HEADERS } });
    return new Response(new Uint8Array(bytes), { headers: { ...PAGE_HEADERS, 'content-type': file.type } });
  });
}
