import {
  againstHolds,
  deviceIssues,
  eventIssues,
  inputIssues,
  plannedIssues,
  resultIssues,
  taskIssues,
  timeIssues,
  unanswered,
  unusable,
} from './english/issues.js';
import { board, charting } from './english/board.js';
import { cards } from './english/cards.js';
import { names, words } from './english/common.js';
import { conditions } from './english/conditions.js';
import { draws } from './english/draw.js';
import { drugs } from './english/drugs.js';
import { feeds, handovers } from './english/handover.js';
import { home } from './english/home.js';
import { lumens } from './english/lumens.js';
import { applying, explaining, fhir, outputs, table } from './english/outputs.js';
import { pages } from './english/pages.js';
import { codes } from './english/codes.js';
import { previews } from './english/preview.js';
import { facts, readings, remarks } from './english/remarks.js';
import { repairs } from './english/repair.js';
import { understanding } from './english/understanding.js';
import { calculated, reasons, work } from './english/work.js';
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
    ...unusable,
    ...deviceIssues,
    ...eventIssues,
    ...inputIssues,
    ...resultIssues,
    ...plannedIssues,
    ...timeIssues,
    ...taskIssues,
    ...againstHolds,
    ...unanswered,
    ...understanding,
    ...lumens,
    ...outputs,
    ...table,
    ...explaining,
    ...fhir,
    ...applying,
    ...handovers,
    ...feeds,
    ...home,
    ...draws,
    ...drugs,
    ...repairs,
    ...pages,
    ...conditions,
    ...previews,
    ...codes,
    ...charting,
    ...board,
    ...cards,
  },
};
