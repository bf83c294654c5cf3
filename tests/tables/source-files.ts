import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const passedBy = new Set(['node_modules', 'dist', 'generated', '.git', '.fhir', 'coverage']);

/** Every file of the repository with one of these endings, by its path; what is installed or built is left out. */
export async function sourceFiles(endings: readonly string[], folder = root): Promise<string[]> {
  const found: string[] = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    if (passedBy.has(entry.name)) continue;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...(await sourceFiles(endings, path)));
    else if (endings.some((ending) => entry.name.endsWith(`.${ending}`))) found.push(path);
  }
  return found.sort();
}
