/**
 * The built page with the script that gives it the host interface. It goes first in the head and is no module, so it
 * has run before any module of the page does. In the window the preload does the same.
 */
export function withPageHost(html: string): string {
  const mark = '<head>';
  const at = html.indexOf(mark);
  if (at < 0) throw new Error('the built page has no <head>');
  const after = at + mark.length;
  return `${html.slice(0, after)}<script src="./page-host.js"></script>${html.slice(after)}`;
}
