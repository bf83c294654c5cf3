// What a line asks of people in a day. `npx vitest run tests/harm/burden.test.ts` prints it.
//
// Before: counted in the same way at the commit af484b8, "Take a control out of what is tested, so that the test of a
// hazard can be seen to fail". In two figures the new counting is the stricter one: alarms that ring for a visit count
// once, and rows are rows of the table.
import { describe, expect, it } from 'vitest';
import { figure } from '../figure.js';
import { admissionBurden, burdenText, demoBurden, storyBurden, wardPolicy, type Burden } from './burden.js';

const before: Readonly<Record<string, Burden>> = {
  'demo unit': {
    lineDays: 18,
    items: 117,
    rows: 108,
    overdue: 27,
    alarms: 124,
    nightAlarms: 39,
    words: 3576,
  },
  story: { lineDays: 58, items: 366, rows: 364, overdue: 2, alarms: 331, nightAlarms: 11, words: 13845 },
  admission: { lineDays: 1, items: 17, rows: 9, overdue: 0, alarms: 0, nightAlarms: 0, words: 466 },
};

const most = 2 / 3;

describe('C16: what a line asks of people in a day', () => {
  const policy = wardPolicy();
  const now = {
    'demo unit': demoBurden(policy),
    story: storyBurden(policy),
    admission: admissionBurden(policy),
  };

  it.each(Object.entries(now))('C16: is told: %s', (what, burden) => {
    console.log(`before  ${burdenText(what, before[what]!)}\nnow     ${burdenText(what, burden)}`);
    expect(burden.lineDays).toBe(before[what]!.lineDays);
  });

  it('C16: the rows of the unit and of the story, and their alarms, are at most two thirds of what they were', (context) => {
    figure(
      context,
      Object.entries(now)
        .map(([what, burden]) => burdenText(what, burden))
        .join('; '),
    );
    for (const what of ['demo unit', 'story'] as const) {
      expect(now[what].rows / before[what]!.rows, `rows, ${what}`).toBeLessThanOrEqual(most);
      expect(now[what].alarms / before[what]!.alarms, `alarms, ${what}`).toBeLessThanOrEqual(most);
    }
    expect(now['demo unit'].overdue / before['demo unit']!.overdue).toBeLessThanOrEqual(most);
    expect(now.admission.rows / before['admission']!.rows).toBeLessThanOrEqual(most);
  });
});
