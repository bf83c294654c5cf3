import type { DueState } from '@dwellward/profiles';

export type Styler = (kind: DueState | 'strong', text: string) => string;

const ansi: Readonly<Record<DueState | 'strong', string>> = {
  strong: '1',
  overdue: '1;35',
  due: '36',
  held: '33',
  upcoming: '2',
};

/** Puts ANSI styles around text, or leaves it as it is. */
export function styler(colour: boolean): Styler {
  return (kind, text) => (colour ? `\u001b[${ansi[kind]}m${text}\u001b[0m` : text);
}

/**
 * Breaks a text at spaces so that no line is longer than `columns`; later lines are indented. 0 leaves it as it is.
 * @example
 * ```ts
 * wrap('Flush, then lock the lumen', 2, 16); // 'Flush, then lock\n  the lumen'
 * ```
 */
export function wrap(text: string, indent: number, columns: number): string {
  if (columns <= 0 || text.length <= columns) return text;
  const start = /^ */.exec(text)?.[0] ?? '';
  const lines: string[] = [];
  let line = start;
  // Runs of spaces are columns of the table: only single ones are places to break.
  for (const word of text.slice(start.length).split(/(?<! ) (?! )/)) {
    if (line.trim() !== '' && line.length + 1 + word.length > columns) {
      lines.push(line);
      line = ' '.repeat(indent) + word;
    } else {
      line = line.trim() === '' ? line + word : `${line} ${word}`;
    }
  }
  return [...lines, line].join('\n');
}

/** A heading with lines below, or nothing where there are none. */
export function section(head: string, lines: readonly string[], numbered = false): string[] {
  if (lines.length === 0) return [];
  return ['', head, ...lines.map((line, i) => (numbered ? `  ${i + 1}. ${line}` : `  - ${line}`))];
}
