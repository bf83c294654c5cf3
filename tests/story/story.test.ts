// Sixty days of one line, from the preparation to the last look after its removal: what is due, held and wrong at every
// moment was worked out by hand from the policies' words and their sources, and stands in fixtures/src/story. Each
// moment names its sources. `npm run story` prints it.
import { isMoment, oneLineSixtyDays } from '@dwellward/fixtures';
import { expect, it } from 'vitest';
import { play, scenesOf, type Outcome } from './play.js';
import { linesOf } from './report.js';
import { serve } from './serve.js';
import { answerOf, compared, missing, policyOf } from './told.js';

it('is in the order of time, and every moment has a title of its own and names its source', () => {
  const { steps } = oneLineSixtyDays();
  const times = steps.map(({ at }) => Date.parse(at));
  expect(times).toEqual([...times].sort((a, b) => a - b));
  const moments = steps.filter(isMoment);
  expect(moments.length).toBeGreaterThanOrEqual(45);
  expect(
    moments.filter(
      ({ source }) =>
        !/common practice, no source|CDC|INS|SHEA|FHIR R4|IANA|label|home sheet|home care sheets|order of/.test(
          source,
        ),
    ),
  ).toEqual([]);
  expect(new Set(moments.map(({ title }) => title)).size).toBe(moments.length);
});

it('does not depend on the order in which the record is read', () => {
  const story = oneLineSixtyDays();
  const policy = policyOf(story);
  // Reading all of them twice would take long and tell no more.
  for (const { moment, record } of scenesOf(story).filter((_, at) => at % 9 === 4)) {
    const one = answerOf(story, policy, record, moment.at).told;
    expect(answerOf(story, policy, [...record].reverse(), moment.at).told, moment.title).toEqual(one);
  }
});

it('says what is missing and what is too much, and how often', () => {
  expect(compared('list', ['a', 'b', 'b'], ['b', 'c'])).toEqual([
    'list: expected and not there: a',
    'list: expected and not there: b',
    'list: there and not expected: c',
  ]);
  expect(missing('list', ['a', 'b'], ['b', 'c'])).toEqual(['list: expected and not there: a']);
});

it('is told by the library and by the adapter over a FHIR server alike, moment by moment', async ({
  task,
}) => {
  const story = oneLineSixtyDays();
  const library = play(story);
  const server = await serve(story, library);
  const outcomes = library.map(({ moment, differences }, at): Outcome => {
    const onServer = server[at]?.differences ?? ['not asked'];
    return {
      moment,
      differences: [
        ...differences.map((text) => `library: ${text}`),
        ...onServer.map((text) => `server: ${text}`),
      ],
    };
  });
  task.meta.story = outcomes;
  expect(library.at(-1)?.told.next, 'what is left at the end').toEqual([]);
  expect(outcomes.filter(({ differences }) => differences.length > 0).map(linesOf)).toEqual([]);
}, 120_000);
