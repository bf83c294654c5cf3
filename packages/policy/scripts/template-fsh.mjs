// The FSH that `dwellward policy new` prints: the starting plan or the examples, and after it the words that rules are
// written in, so that the file compiles by itself.
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const fsh = join(dirname(fileURLToPath(import.meta.url)), '../fsh/input/fsh');
const words = ['aliases', 'rules', 'sources', 'work'].map((name) => `language/${name}.fsh`);

/** The starting plan and the language, as one file. */
export function templateFsh() {
  return withLanguage(readFileSync(join(fsh, 'template.fsh'), 'utf8'));
}

/** The examples of rules and the language, as one file. */
export function examplesFsh() {
  return withLanguage(readFileSync(join(fsh, 'examples.fsh'), 'utf8'));
}

/** A plan and the language, as one file. */
export function withLanguage(plan) {
  const language = words.map((name) => readFileSync(join(fsh, name), 'utf8').trim());
  return `${plan.trim()}\n\n// ===== The words that rules are written in: keep them as they are =====\n\n${language.join('\n\n')}\n`;
}
