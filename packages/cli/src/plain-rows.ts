/** Rows of cells beneath each other, two blanks apart; the first row says how many there are. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, at) => Math.max(...rows.map((row) => row[at]?.length ?? 0)));
  return rows.map((row) =>
    row
      .map((cell, at) => cell.padEnd(widths[at] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}

/** Rows as RFC 4180 has them; a cell that a spreadsheet would take for a formula begins with an apostrophe. */
export function csvRows(rows: readonly (readonly string[])[]): string {
  return rows.map((row) => `${row.map(csvCell).join(',')}\r\n`).join('');
}

function csvCell(text: string): string {
  const number = /^[+-]?\d+(\.\d+)?$/.test(text);
  const safe = /^[=+\-@\t\r]/.test(text) && !number ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
