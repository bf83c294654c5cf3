import { closeSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';

/** One line of the input as it is kept between: whose it is, and where it stood. */
export interface Kept {
  readonly key: string;
  readonly name: string;
  readonly number: number;
  readonly line: string;
}

const bufferedChars = 32_000;

/** Lines on disk, one file a partition. */
export class Spool {
  readonly #files = new Map<string, number>();
  readonly #waiting = new Map<string, { readonly parts: string[]; chars: number }>();

  constructor(readonly folder: string) {}

  add(partition: string, { key, name, number, line }: Kept): void {
    const waiting = this.#waiting.get(partition) ?? { parts: [], chars: 0 };
    this.#waiting.set(partition, waiting);
    const text = `${JSON.stringify([key, name, number])}\t${line}\n`;
    waiting.parts.push(text);
    waiting.chars += text.length;
    if (waiting.chars >= bufferedChars) this.#flush(partition);
  }

  /** Takes all lines of a partition off the disk, in the order in which they came. */
  take(partition: string): Kept[] {
    this.#flush(partition);
    const file = this.#files.get(partition);
    if (file === undefined) return [];
    closeSync(file);
    this.#files.delete(partition);
    const path = join(this.folder, partition);
    const lines = readFileSync(path, 'utf8').split('\n');
    rmSync(path);
    return lines.filter((line) => line !== '').map(keptOf);
  }

  close(): void {
    for (const file of this.#files.values()) closeSync(file);
    this.#files.clear();
    rmSync(this.folder, { recursive: true, force: true });
  }

  #flush(partition: string): void {
    const waiting = this.#waiting.get(partition);
    if (waiting === undefined) return;
    this.#waiting.delete(partition);
    let file = this.#files.get(partition);
    // Only for who runs it: these are patients’ data.
    file ??= openSync(join(this.folder, partition), 'a', 0o600);
    this.#files.set(partition, file);
    writeSync(file, waiting.parts.join(''));
  }
}

function keptOf(text: string): Kept {
  const tab = text.indexOf('\t');
  const [key, name, number] = JSON.parse(text.slice(0, tab)) as [string, string, number];
  return { key, name, number, line: text.slice(tab + 1) };
}
