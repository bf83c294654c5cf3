import {
  codeSystem,
  identifierSystem,
  standard,
  writtenExtension,
  writtenProfile,
} from '@dwellward/profiles';
import type { Bundle, FhirResource, Flag } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { dueCare } from '../due/due-care.js';
import {
  berlin,
  event,
  finding,
  line,
  lumen,
  on,
  patient,
  policyOf,
  read,
  rule,
  type Resource,
} from '../record.kit.js';
import { dueBundle } from './due-bundle.js';
import { transactionFor } from './transaction.js';

// It reads what is found and asks for nothing, so that only the lumens’ own Flags are told.
const policy = policyOf(
  rule(
    'reads',
    { begins: { kind: 'while' } },
    {
      when: '%line.lumenCount < 1 and (%found.damage.exists() or %found.bloodReturn.exists() or %found.flushResistance.exists())',
    },
  ),
);
const at = (time: string) => `2026-11-25T${time}:00+01:00`;
const base = [
  patient(),
  line(),
  lumen('red', { deviceName: [{ name: 'red', type: 'user-friendly-name' }] }),
  lumen('white'),
  event('insertion', '2026-11-01T10:00:00+01:00'),
];
const seen = (code: string, value: string, time: string, device = 'red') =>
  finding(code, value, at(time), {
    id: `${code}-${time.replace(':', '')}`,
    focus: [{ reference: `Device/${device}` }],
  });

function answer(resources: readonly Resource[], time = '12:00') {
  const records = read(...base, ...resources);
  const when = berlin(at(time));
  return { records, cares: records.lines.map((one) => dueCare(one, policy, when)), policy, when };
}

function flagsOf(resources: readonly Resource[], time?: string): Flag[] {
  const { records, cares, when } = answer(resources, time);
  const entries = dueBundle(records, cares, policy, when).entry ?? [];
  return entries.map(({ resource }) => resource).filter((one): one is Flag => one?.resourceType === 'Flag');
}

const change = (resources: readonly Resource[], existing: readonly FhirResource[], time?: string) =>
  transactionFor({ ...answer(resources, time), existing });

/** As a server would hold what was written. */
function held(bundle: Bundle | undefined): FhirResource[] {
  return (bundle?.entry ?? []).map(
    ({ resource }, i) => ({ ...resource, id: `s${i}`, meta: { versionId: '1' } }) as FhirResource,
  );
}

const blocked = seen('blood-return', 'none', '08:00');
const damaged = seen('damage', 'leak', '09:00');

describe('a Flag of a lumen', () => {
  it('says what is wrong, since when, of which lumen, by which finding', () => {
    const [flag, ...others] = flagsOf([blocked]);
    expect(others).toEqual([]);
    expect(flag).toMatchObject({
      status: 'active',
      code: {
        coding: [{ system: codeSystem.lumenState, code: 'blocked', display: 'Blocked' }],
        text: 'Blocked, red: There was no blood return; it was not found open since.',
      },
      subject: { reference: 'Patient/p' },
      period: { start: at('08:00') },
    });
    expect(flag?.period?.end).toBeUndefined();
    expect(flag?.extension?.filter(({ url }) => url === standard.flagDetail)).toEqual(
      ['Device/red', 'Observation/blood-return-0800'].map((reference) => ({
        url: standard.flagDetail,
        valueReference: { reference },
      })),
    );
  });

  it('is one for each trouble, whichever of them is the more serious', () => {
    const codes = flagsOf([blocked, damaged]).map(({ code }) => code.coding?.[0]?.code);
    expect(codes.sort()).toEqual(['blocked', 'damaged']);
  });

  it('is one of the line where damage is on record of the line as a whole', () => {
    const flags = flagsOf([seen('damage', 'cut', '09:00', 'line')]);
    expect(flags.map(({ extension }) => extension?.[0]?.valueReference?.reference)).toEqual(['Device/line']);
  });

  it('is none of a lumen that is sluggish, in use or not known, and none once the line is out', () => {
    expect(flagsOf([seen('blood-return', 'sluggish', '08:00')])).toEqual([]);
    expect(flagsOf([])).toEqual([]);
    expect(flagsOf([blocked, event('removal', at('11:00'))])).toEqual([]);
  });
});

describe('the Flags on a server', () => {
  const first = change([blocked], []);
  const there = held(first);

  it('are created by their identity', () => {
    expect(first?.entry).toMatchObject([
      { request: { method: 'POST', url: 'Flag' }, resource: { resourceType: 'Flag' } },
    ]);
    const id = (there[0] as Flag).identifier?.[0];
    expect(id?.system).toBe(identifierSystem.lumenWarning);
    expect(first?.entry?.[0]?.request?.ifNoneExist).toContain(encodeURIComponent(id?.value ?? '-'));
  });

  it('stay as they are while nothing changes, and as one while more is found', () => {
    expect(change([blocked], there, '13:00')).toBeUndefined();
    const more = change([blocked, seen('flush-resistance', 'blocked', '12:30')], there, '13:00');
    expect(more?.entry).toMatchObject([{ request: { method: 'PUT', url: 'Flag/s0' } }]);
    expect(more?.entry?.[0]?.resource).toMatchObject({ status: 'active', period: { start: at('08:00') } });
  });

  it('are closed when it is over, once', () => {
    const over = change([blocked, seen('blood-return', 'brisk', '12:30')], there, '13:00');
    expect(over?.entry).toMatchObject([
      {
        request: { method: 'PUT', url: 'Flag/s0' },
        resource: { status: 'inactive', period: { start: at('08:00'), end: at('13:00') } },
      },
    ]);
    const closed = (over?.entry ?? []).map(({ resource }) => resource as FhirResource);
    expect(change([blocked, seen('blood-return', 'brisk', '12:30')], closed, '14:00')).toBeUndefined();
  });

  it('are closed by a repair, and a new damage has one of its own', () => {
    const before = held(change([damaged], []));
    const repaired = [damaged, event('repair', at('12:30'), on('red'))];
    const closed = held(change(repaired, before, '13:00'));
    expect(closed).toMatchObject([{ status: 'inactive' }]);
    const anew = change([...repaired, seen('damage', 'cut', '13:30')], closed, '14:00');
    expect(anew?.entry).toMatchObject([{ request: { method: 'POST', url: 'Flag' } }]);
  });

  it('come back where the finding that ended it was an error', () => {
    const brisk = seen('blood-return', 'brisk', '12:30');
    const closed = held(change([blocked, brisk], there, '13:00'));
    const back = change([blocked, { ...brisk, status: 'entered-in-error' }], closed, '14:00');
    expect(back?.entry).toMatchObject([
      { request: { method: 'PUT' }, resource: { status: 'active', period: { start: at('08:00') } } },
    ]);
    expect((back?.entry?.[0]?.resource as Flag).period?.end).toBeUndefined();
  });
});

it('what is written declares its profile, and whatever else a server keeps in meta stays', () => {
  const written = (change([blocked], [])?.entry ?? []).map(({ resource }) => resource as Flag);
  expect(written.every(({ meta }) => meta?.profile?.length === 1)).toBe(true);
  const meta = { versionId: '1', profile: ['https://hospital.example/flag'], tag: [{ code: 'seen' }] };
  const existing = written.map((flag, i): Flag => ({
    ...flag,
    ...{ id: `s${i}`, meta, status: 'active' },
    extension: (flag.extension ?? []).map((one) =>
      one.url === writtenExtension.workedOut ? { ...one, valueString: 'of another time' } : one,
    ),
  }));
  const again = (change([blocked], existing)?.entry ?? []).map(({ resource }) => resource as Flag);
  expect(again).toHaveLength(existing.length);
  for (const flag of again) {
    expect(flag.meta?.tag).toEqual(meta.tag);
    expect(flag.meta?.profile).toEqual(['https://hospital.example/flag', writtenProfile.lumenFlag]);
  }
});
