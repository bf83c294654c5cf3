const named: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text as it may stand in XML and XHTML; control characters that XML refuses are left out. */
export function escaped(text: string): string {
  return [...text]
    .filter((char) => char >= ' ' || char === '\n' || char === '\t')
    .map((char) => named[char] ?? char)
    .join('');
}
