/** Rows as aligned columns; the last column is not padded. */
export function table(rows: readonly (readonly string[])[], indent = ''): string {
  const columns = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, at) => Math.max(...rows.map((row) => (row[at] ?? '').length)));
  const lines = rows.map(
    (row) => indent + row.map((cell, at) => (at === row.length - 1 ? cell : cell.padEnd(widths[at]))).join('  '),
  );
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

/** A number for a person: four significant digits at most, never an exponent in the range of an eye. */
export function figure(value: number): string {
  if (Number.isInteger(value)) return String(value);
  return Math.abs(value) >= 1000 ? value.toFixed(0) : String(Number(value.toPrecision(4)));
}
