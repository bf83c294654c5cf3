import { displayOf, type LineCareActivity, type LineFinding } from '@dwellward/profiles';
import type { LumenSentences } from '../../model/sentences/lumens.js';
import type { Wordings } from '../language.js';
import { capital, lowerDisplay, lumenNamed } from './common.js';

type Grade = LumenSentences['not-found-open']['grade'];

const looks: Readonly<Partial<Record<LineFinding, Readonly<Record<Grade, string>>>>> = {
  'blood-return': { blocked: 'there was no blood return', sluggish: 'blood return was sluggish' },
  'flush-resistance': { blocked: 'the flush did not go in', sluggish: 'the flush met resistance' },
};

function lookText(finding: LineFinding, grade: Grade): string {
  return looks[finding]?.[grade] ?? `it was ${grade} by ${lowerDisplay('lineFinding', finding)}`;
}

const ended: Readonly<Partial<Record<LineCareActivity, string>>> = {
  'blood-sampling': 'Blood was drawn',
  'infusion-stop': 'An infusion ended',
};

export const lumens: Wordings<keyof LumenSentences> = {
  'infusion-runs': () => 'An infusion runs.',
  'infusion-was-connected': () => 'An infusion was connected and no stop is on record since.',
  'holds-forbid-use': ({ holds }, { instant }) =>
    `${[
      ...new Set(
        holds.map(({ title, until }) => `${title}${until === undefined ? '' : `, until ${instant(until)}`}`),
      ),
    ].join('; ')}.`,
  'damage-stands': ({ kinds, wholeLine }) =>
    `Damage${kinds.length > 0 ? ` (${kinds.join(', ')})` : ''} was found${wholeLine ? ' and is on record of the line as a whole' : ''}; no repair of it is on record since.`,
  'not-found-open': ({ grade, looks: of }) =>
    `${capital(of.map((look) => lookText(look, grade)).join(' and '))}; it was not found open since.`,
  'not-flushed-since': ({ after }) =>
    `${after.map((activity) => ended[activity] ?? displayOf('lineCareActivity', activity)).join('. ')} and no flush is on record since.`,
  'runs-although-held': ({ why, rest }, { say }) => `${say(why)} It runs against a hold. ${say(rest)}`,
  'infusion-may-still-run': () =>
    'An infusion has no end on record, and does not say that it runs: it may still run.',
  'locked-without-flush': () => 'It was locked without a flush before.',
  'locked-and-not-used': () => 'It was locked and not used since.',
  'flushed-and-not-locked': () => 'It was flushed and no lock is on record since.',
  'use-not-on-record': () =>
    'Nothing is on record of its use: it may be in use, and no flush or lock is known.',
  'lumen-is': ({ name, facts }, { say }) => {
    const states = facts.map(
      ({ state, since }) =>
        `${lowerDisplay('lumenState', state)}${since === undefined ? '' : ` since ${say({ code: 'clock', at: since })}`}`,
    );
    return `${capital(lumenNamed(name))}: ${states.join('; ')}`;
  },
};
