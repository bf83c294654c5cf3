import { codeSystem, identifierSystem, writtenProfile } from '@dwellward/profiles';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dueCare } from '../due/due-care.js';
import {
  berlin,
  days,
  event,
  every,
  finding,
  forbidAfter,
  hours,
  line,
  lumen,
  on,
  onFinding,
  patient,
  policyOf,
  readLine,
  rule,
  type Resource,
} from '../record.kit.js';
import { chartedBundle } from './charted-bundle.js';
import { firstStepsOf } from './first-steps.js';
import type { Charted } from './model.js';
import { chartQuestions } from './questions.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const policy = policyOf(
  rule('Flush', every(days(1)), { activity: 'flush', scope: 'lumen' }),
  rule('Rest after repair', forbidAfter('repair', hours(2)), { activity: 'flush', scope: 'lumen' }),
  rule('Bleeding: first steps', onFinding('bleeding'), {
    activity: 'bleeding-response',
    scope: 'line',
    priority: 'stat',
    work: { computed: [], steps: [['Press on it.']], supplies: ['gauze'], cautions: [] },
  }),
);
const small: readonly Resource[] = [
  patient(),
  line('picc'),
  lumen('red', { deviceName: [{ name: 'red' }] }),
  lumen('white', { deviceName: [{ name: 'white' }] }),
  event('insertion', '2026-11-20T09:00:00+01:00'),
  event('flush', '2026-11-25T11:59:00+01:00', { id: 'f1', ...on('red') }),
];
const flush: Charted = {
  id: '6f1f6e1c-0000-4000-8000-000000000001',
  line: 'Device/line',
  lumen: 'Device/white',
  activity: 'flush',
  findings: [],
  at: when.asOf,
};
function asked(charted: Partial<Charted>, more: readonly Resource[] = []) {
  const record = readLine(...small, ...more);
  return chartQuestions({ ...flush, ...charted }, record, policy, when).map(({ code, refused }) =>
    refused ? `${code}!` : code,
  );
}

describe('before care is charted', () => {
  it('nothing is asked of an act that nothing speaks against', () => {
    expect(asked({})).toEqual([]);
  });

  it('a hold is asked about, on its own lumen and in its own time', () => {
    const repair = event('repair', '2026-11-25T11:30:00+01:00', on('white'));
    expect(asked({}, [repair])).toEqual(['charts-against-hold']);
    expect(asked({ lumen: 'Device/red', at: '2026-11-25T11:40:00+01:00' }, [repair])).toEqual([]);
    expect(asked({ at: '2026-11-25T11:20:00+01:00' }, [repair])).toEqual([]);
  });

  it('a hold that is over is asked about too, where the act is charted for its time', () => {
    const repair = event('repair', '2026-11-25T08:00:00+01:00', on('white'));
    expect(asked({ at: '2026-11-25T09:00:00+01:00' }, [repair])).toEqual(['charts-against-hold']);
    expect(asked({ at: '2026-11-25T10:00:00+01:00' }, [repair])).toEqual([]);
  });

  it('nothing is written of a lumen that the record only counts: it would count for none, or for all', () => {
    const property = [
      {
        type: { coding: [{ system: codeSystem.lineProperty, code: 'lumen-count' }] },
        valueQuantity: [{ value: 3 }],
      },
    ];
    const counted = readLine(
      patient(),
      line('picc', { property }),
      event('insertion', '2026-11-20T09:00:00+01:00'),
    );
    const of = (charted: Partial<Charted>) =>
      chartQuestions({ ...flush, lumen: counted.lumens[1]!.ref, ...charted }, counted, policy, when).map(
        ({ code, refused }) => [code, refused],
      );
    expect(counted.lumens).toHaveLength(3);
    expect(of({})).toEqual([['charts-on-counted-lumen', true]]);
    const { activity: _, ...found } = flush;
    const blocked = [{ finding: 'flush-resistance', value: 'blocked' }] as const;
    expect(
      chartQuestions({ ...found, lumen: counted.lumens[1]!.ref, findings: blocked }, counted, policy, when),
    ).toMatchObject([{ code: 'charts-on-counted-lumen', refused: true }]);
    expect(of({ activity: 'dressing-change' })).toEqual([]);
  });

  it('the only lumen of a line and the line are one target', () => {
    const alone = [
      patient(),
      line('picc'),
      lumen('red'),
      event('insertion', '2026-11-20T09:00:00+01:00'),
      event('flush', '2026-11-25T11:59:00+01:00', on('red')),
    ];
    const record = readLine(...alone);
    const { lumen: _, ...noLumen } = flush;
    for (const charted of [noLumen, { ...flush, lumen: record.lumens[0]!.ref }])
      expect(chartQuestions(charted, record, policy, when).map(({ code }) => code)).toEqual(['charts-twice']);
  });

  it('the same act within two minutes is asked about, beyond them or on another lumen not', () => {
    expect(asked({ lumen: 'Device/red' })).toEqual(['charts-twice']);
    expect(asked({ lumen: 'Device/red', at: '2026-11-25T11:57:00+01:00' })).toEqual(['charts-twice']);
    expect(asked({ lumen: 'Device/red', at: '2026-11-25T11:56:59+01:00' })).toEqual([]);
  });

  it('what is still to come is refused; a clock two minutes ahead is not', () => {
    expect(asked({ at: '2026-11-25T12:02:00+01:00' })).toEqual([]);
    expect(asked({ at: '2026-11-25T12:02:01+01:00' })).toEqual(['charts-in-future!']);
  });

  it('before the insertion and after the removal it is asked whether line and time are right', () => {
    expect(asked({ at: '2026-11-20T08:59:00+01:00' })).toEqual(['charts-before-insertion']);
    const removal = event('removal', '2026-11-25T11:00:00+01:00');
    expect(asked({}, [removal])).toEqual(['charts-of-closed-line']);
    expect(asked({ at: '2026-11-25T10:00:00+01:00' }, [removal])).toEqual([]);
  });

  it('where an error of ours keeps what is forbidden from being known it is asked, and not left to be silent', () => {
    const broken = Object.defineProperty({ ...policy }, 'rules', {
      get: () => {
        throw new Error('broken');
      },
    });
    expect(
      chartQuestions({ ...flush, lumen: 'Device/white' }, readLine(...small), broken, when),
    ).toMatchObject([{ code: 'charts-against-unknown', refused: false }]);
  });

  it('the order in which the resources came does not matter', () => {
    const removal = event('removal', '2026-11-24T11:00:00+01:00', { id: 'zz' });
    const again = event('insertion', '2026-11-25T08:00:00+01:00', { id: 'a' });
    expect(asked({}, [again, removal])).toEqual(asked({}, [removal, again]));
    expect(asked({}, [again, removal])).toEqual([]);
  });

  it('a lumen has to be named where the act is one lumen’s, and has to be of the line', () => {
    const { lumen: _, ...noLumen } = flush;
    const record = readLine(...small);
    expect(chartQuestions(noLumen, record, policy, when).map(({ code }) => code)).toEqual([
      'charts-on-no-lumen',
    ]);
    expect(asked({ lumen: 'Device/elsewhere' })).toContain('charts-on-unknown!');
  });
});

describe('what was charted', () => {
  it('is a Procedure and an Observation a finding, each created once by its identifier', () => {
    const { entry = [] } = chartedBundle(
      { ...flush, by: 'N. Nurse', findings: [{ finding: 'blood-return', value: 'brisk' }] },
      readLine(...small),
    );
    expect(entry.map(({ resource }) => resource)).toMatchObject([
      {
        resourceType: 'Procedure',
        status: 'completed',
        meta: { profile: [writtenProfile.careEvent] },
        focalDevice: [{ manipulated: { reference: 'Device/white' } }],
        performer: [{ actor: { display: 'N. Nurse' } }],
      },
      { resourceType: 'Observation', valueCodeableConcept: { coding: [{ code: 'brisk' }] } },
    ]);
    const identities = entry.map(({ request }) => decodeURIComponent(request?.ifNoneExist ?? ''));
    expect(identities).toEqual([
      `identifier=${identifierSystem.charted}|${flush.id}`,
      `identifier=${identifierSystem.charted}|${flush.id}.1`,
    ]);
  });

  it('is read back as what it says: the item is met, the finding stands', () => {
    const record = readLine(...small);
    const { entry = [] } = chartedBundle(
      { ...flush, findings: [{ finding: 'flush-resistance', value: 'blocked' }] },
      record,
    );
    const again = readLine(
      ...small,
      ...entry.map(({ resource }, at) => ({ ...resource, id: `charted-${at}` }) as Resource),
    );
    expect(again.events).toContainEqual(
      expect.objectContaining({ ref: 'Procedure/charted-0', activity: 'flush', lumen: 'Device/white' }),
    );
    expect(again.findings).toMatchObject([{ finding: 'flush-resistance', values: ['blocked'] }]);
  });

  it('has its findings where they belong: of a lumen on the lumen, of the line on the line', () => {
    const { entry = [] } = chartedBundle(
      {
        ...flush,
        findings: [
          { finding: 'blood-return', value: 'none' },
          { finding: 'external-length', quantity: '3.5' },
          { finding: 'exit-site', value: 'redness' },
        ],
      },
      readLine(...small),
    );
    expect(entry.slice(1).map(({ resource }) => resource)).toMatchObject([
      { focus: [{ reference: 'Device/white' }] },
      { focus: [{ reference: 'Device/line' }] },
      { focus: [{ reference: 'Device/line' }] },
    ]);
  });

  it('of any quantity is read back as that quantity', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), (tenths) => {
        const quantity = (tenths / 10).toFixed(1);
        const { entry = [] } = chartedBundle(
          { ...flush, findings: [{ finding: 'external-length', quantity }] },
          readLine(...small),
        );
        const [, found] = entry;
        expect(found?.resource).toMatchObject({ valueQuantity: { value: tenths / 10, code: 'cm' } });
      }),
    );
  });
});

describe('first steps of a trouble', () => {
  it('are those that would be asked for if it were found now, and the record stays as it is', () => {
    const record = readLine(...small);
    const before = JSON.stringify(record);
    expect(firstStepsOf(record, policy, when)).toMatchObject([
      { finding: 'bleeding', items: [{ emergency: true, steps: ['Press on it.'], take: ['gauze'] }] },
    ]);
    expect(JSON.stringify(record)).toBe(before);
    expect(dueCare(record, policy, when).items.some(({ activity }) => activity === 'bleeding-response')).toBe(
      false,
    );
  });

  it('are still there while the trouble stands, and for a lumen that is not of the line those of its first', () => {
    const stands = finding('bleeding', 'present', '2026-11-25T09:00:00+01:00');
    const record = readLine(...small, stands);
    expect(firstStepsOf(record, policy, when)).toMatchObject([
      { finding: 'bleeding', items: [{ steps: ['Press on it.'] }] },
    ]);
    const ofLumen = policyOf(
      rule('Blocked: first steps', onFinding('flush-resistance', ['blocked']), {
        activity: 'patency-assessment',
        scope: 'lumen',
        priority: 'urgent',
      }),
    );
    const [on] = firstStepsOf(readLine(...small), ofLumen, when, 'Device/of-another-line');
    expect(on).toMatchObject({
      ofLumen: true,
      value: 'blocked',
      items: [{ text: expect.stringMatching(/red/) }],
    });
  });

  it('offer the kinds of a trouble whose steps are the same, each by its name', () => {
    const anyDamage = policyOf(
      rule('Damage: first steps', onFinding('damage'), {
        activity: 'repair',
        scope: 'line',
        priority: 'stat',
      }),
    );
    const [trouble] = firstStepsOf(readLine(...small), anyDamage, when);
    expect(trouble?.kinds).toContainEqual({ value: 'leak', name: 'Leak' });
  });
});
