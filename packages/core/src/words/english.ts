import { names, words } from './english/common.js';
import { facts, readings, remarks } from './english/remarks.js';
import { againstHolds, calculated, reasons, work } from './english/work.js';
import type { Language } from './language.js';

/** English, in short sentences: the language that is spoken where none is asked for. */
export const english: Language = {
  tag: 'en',
  wordings: {
    ...names,
    ...words,
    ...remarks,
    ...facts,
    ...readings,
    ...work,
    ...reasons,
    ...calculated,
    ...againstHolds,
  },
};
