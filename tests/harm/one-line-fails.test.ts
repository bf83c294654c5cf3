// The last safety net: an error of ours that one line or one resource brings about must not take the care of the others
// with it. None is known, so the errors are put in here: into what looks at a line, and into what reads allergies.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { defaultPolicy } from '@dwellward/policy';
import type { Bundle, FhirResource, Task } from 'fhir/r4.js';
import type * as Alerts from '../../packages/core/src/record/alerts.js';
import type * as TimelineIssues from '../../packages/core/src/timeline/timeline-issues.js';
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';

const faults = vi.hoisted(() => ({ line: '', allergy: '' }));

vi.mock('../../packages/core/src/timeline/timeline-issues.js', async (original) => {
  const real = await original<typeof TimelineIssues>();
  const timelineIssues: typeof real.timelineIssues = (timeline, ...rest) => {
    if (timeline.line.ref === faults.line) throw new TypeError('a fault that was put in');
    return real.timelineIssues(timeline, ...rest);
  };
  return { ...real, timelineIssues };
});
vi.mock('../../packages/core/src/record/alerts.js', async (original) => {
  const real = await original<typeof Alerts>();
  const readAlerts: typeof real.readAlerts = (index) => {
    if (index.get('AllergyIntolerance', faults.allergy)) throw new TypeError('a fault that was put in');
    return real.readAlerts(index);
  };
  return { ...real, readAlerts };
});

// Other tests of this process may have loaded them without the faults.
vi.resetModules();
const { dueCareBy } = await import('@dwellward/adapter');
const { run } = await import('@dwellward/cli');
const { dueCareOfEach, readRecords } = await import('@dwellward/core');
afterAll(() => void vi.resetModules());

const line = 'Device/alder-tunneled';
const patient = 'Patient/alder-nuthatch';
const when = { asOf: demoInstant, zone: demoZone };
const allergy = {
  ...{ resourceType: 'AllergyIntolerance', id: 'fault', patient: { reference: patient } },
  code: { text: 'chlorhexidine' },
};
const unit = () => [...(demoUnit().entry ?? []), { resource: allergy as FhirResource }];
const policy = defaultPolicy();

const folder = mkdtempSync(join(tmpdir(), 'dwellward-fails-'));
const file = join(folder, 'unit.json');
writeFileSync(file, JSON.stringify({ resourceType: 'Bundle', type: 'collection', entry: unit() }));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(() => Object.assign(faults, { line: '', allergy: '' }));

async function dwellward(...args: string[]) {
  let [out, err] = ['', ''];
  const exit = await run([...args, '--at', demoInstant, '--zone', demoZone], {
    stdin: (async function* () {})(),
    write: (text) => void (out += text),
    warn: (text) => void (err += text),
    ...{ colour: false, columns: 0, progress: false, now: () => demoInstant },
  });
  return { exit, out, err };
}

describe('an error of ours', () => {
  it('I4: in what looks at one line leaves the care of every other line as it is', () => {
    const { lines } = readRecords(unit());
    const sound = dueCareOfEach(lines, policy, when);
    faults.line = line;
    const cares = dueCareOfEach(lines, policy, when);
    expect(cares.filter((care) => care.line !== line)).toEqual(sound.filter((care) => care.line !== line));
    const failed = cares.find((care) => care.line === line);
    expect(failed).toMatchObject({
      ...{ patient, inPlace: true, notComputed: true, items: [] },
      warnings: [{ code: 'care-not-computed' }],
      issues: [{ severity: 'high', resource: line, patient, line }],
    });
    expect(() => dueCareOfEach(lines, policy, { ...when, zone: 'Nowhere/At-all' })).toThrow();
  });

  it('I4: is told on top of the line, on the error stream and by exit code 5', async () => {
    faults.line = line;
    for (const command of ['due', 'handover']) {
      const { exit, out, err } = await dwellward(command, file);
      expect(exit).toBe(5);
      expect(out).toContain('WARNING: what care this line needs could not be worked out');
      expect(out).toContain('That nothing is listed does not mean that nothing is due');
      expect(out).toContain('Spindle Wagtail');
      expect(err).toContain(line);
    }
  });

  it('I4: closes and changes nothing that the server has of the line, and says so there', () => {
    const care = dueCareBy(policy, demoZone);
    const record = unit();
    const slice = { patient, record: record as never, existing: [] };
    const written = (bundle: Bundle | undefined) =>
      (bundle?.entry ?? []).flatMap(({ resource }) => resource ?? []);
    const kept = written(care.difference(slice, demoInstant).bundle)
      .filter(({ resourceType }) => ['Task', 'Flag', 'DetectedIssue'].includes(resourceType))
      .map((resource, i) => ({ ...resource, id: `kept-${i}`, meta: { versionId: '1' } }));
    const ofLine = kept.filter(
      (one) => one.resourceType === 'Task' && (one as Task).focus?.reference?.startsWith(line),
    );
    expect(ofLine.length).toBeGreaterThan(0);
    faults.line = line;
    const changes = care.difference({ ...slice, existing: kept }, demoInstant).bundle;
    const entries = changes?.entry ?? [];
    expect(entries.map(({ request }) => request?.method)).not.toContain('PUT');
    const [issue, ...more] = written(changes);
    expect(more).toEqual([]);
    expect(JSON.stringify(issue)).toContain('could not be worked out');
    const after = [...kept, { ...issue, id: 'told', meta: { versionId: '1' } } as FhirResource];
    expect(care.difference({ ...slice, existing: after }, demoInstant).bundle).toBeUndefined();
  });

  it('I4: in what reads one resource leaves that resource out, names it, and reads the rest', async () => {
    const sound = readRecords(demoUnit().entry ?? []);
    faults.allergy = 'AllergyIntolerance/fault';
    const records = readRecords(unit());
    expect(records.lines).toEqual(sound.lines);
    expect(records.issues).toContainEqual(
      expect.objectContaining({ code: 'unreadable', severity: 'high', resource: 'AllergyIntolerance/fault' }),
    );
    const { exit, err } = await dwellward('due', file);
    expect(exit).toBe(5);
    expect(err).toContain('AllergyIntolerance/fault');
    expect(err).toContain('a fault that was put in');
  });
});
