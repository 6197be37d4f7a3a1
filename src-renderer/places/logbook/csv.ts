/** Comma-separated values after RFC 4180. */

/** A cell that a spreadsheet would take for a formula is kept as text by a leading apostrophe. */
function cell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return Number.isFinite(value) ? String(value) : '';
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Lines of cells as text; what is not there or not finite is an empty cell. */
export const csvOf = (lines: readonly (readonly (string | number | null)[])[]): string =>
  lines.map((line) => `${line.map(cell).join(',')}\r\n`).join('');
