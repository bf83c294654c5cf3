import { readFile } from 'node:fs/promises';

/**
 * Gives what a file holds, read anew every time and parsed anew where its text has changed: key files and tokens are
 * replaced while the adapter runs. The whole text is compared, not its time: two changes may fall into one tick of the
 * file system's clock.
 * @param parse may throw; then the next call tries again.
 */
export function rereadFile<T>(path: string, parse: (text: string) => T | Promise<T>): () => Promise<T> {
  let last: { readonly text: string; readonly value: Promise<T> } | undefined;
  return async () => {
    const text = await readFile(path, 'utf8');
    if (text !== last?.text) {
      const value = Promise.resolve(text).then(parse);
      last = { text, value };
    }
    return last.value;
  };
}
