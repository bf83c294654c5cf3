import type { Sentence } from '../model/sentences.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from './english.js';
import { speaker } from './say.js';

const say = speaker(english, new Calendar('UTC'));

/** Remarks in English; their times are texts already. */
export const remarkTexts = (remarks: readonly Sentence[]): string[] => remarks.map(say);
