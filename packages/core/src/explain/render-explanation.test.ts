import { describe, expect, it } from 'vitest';
import {
  berlin,
  care,
  days,
  dressing,
  event,
  every,
  line,
  lumen,
  on,
  patient,
  policyOf,
  readLine,
  type Resource,
  rule,
} from '../record.kit.js';
import { renderExplanation, type ExplainedLine } from './render-explanation.js';

const when = berlin('2026-11-25T12:00:00+01:00');
const inserted = event('insertion', '2026-11-20T09:00:00+01:00', { id: 'in' });
const changed = event('dressing-change', '2026-11-24T10:00:00+01:00', dressing('gauze-dressing'));
const base = [patient(), line(), inserted, changed];
const gauze = rule('Gauze', every(days(2)));
const flush = rule('Flush', every(days(1)), { activity: 'flush', scope: 'line' });
const policy = policyOf(gauze, flush);

const page = (resources: readonly Resource[], more: Partial<ExplainedLine> = {}) =>
  renderExplanation({
    care: care(resources, more.policy ?? policy, when),
    line: readLine(...resources),
    policy,
    when,
    ...more,
  });

describe('the page on why care is due', () => {
  it('tells every item, or only those of the activity that is asked for', () => {
    expect(page(base)).toContain('Gauze');
    expect(page(base)).toContain('Flush');
    const only = page(base, { activity: 'dressing-change' });
    expect(only).toContain('Gauze');
    expect(only).not.toContain('Flush');
  });

  // A page that is merely empty reads like a line that needs nothing.
  it('says in words that nothing is asked for, and of which activity', () => {
    expect(page(base, { policy: policyOf() })).toContain('Nothing is asked for by this policy.');
    expect(page(base, { activity: 'tip-confirmation' })).toMatch(/This policy asks for no .*tip.*\./);
    expect(page(base)).not.toMatch(/asked for by this policy|This policy asks for no/);
  });

  it('says that a line is out, and not that its policy asks for nothing', () => {
    const out = page([...base, event('removal', '2026-11-25T10:00:00+01:00')]);
    expect(out).toMatch(/removed|taken out|is out/i);
    expect(out).not.toContain('Nothing is asked for by this policy.');
  });

  it('tells what contradicts itself in the record, with the resource', () => {
    const out = event('removal', '2026-11-23T10:00:00+01:00', { id: 'out' });
    const late = event('flush', '2026-11-24T10:00:00+01:00', { id: 'late' });
    const told = page([...base, out, late]);
    expect(told).toMatch(/In the record: .*\(.*Procedure\/late/);
    expect(page(base)).not.toContain('In the record: ');
  });

  it('tells a repair, with the lumen that was repaired', () => {
    const red = lumen('red');
    const repair = event('repair', '2026-11-23T09:00:00+01:00', { id: 'mended', ...on('red') });
    const told = page([...base, red, repair]);
    expect(told).toMatch(/repaired Mon 23 Nov 2026 09:00, .*red.* \[Procedure\/mended\]/);
    expect(page(base)).not.toContain('repaired');
  });

  it('says at its head which line of which patient, and at what time', () => {
    const head = page(base).split('\n')[0];
    expect(head).toContain('Device/');
    expect(head).toContain('Patient/');
    expect(head).toContain('25 Nov 2026 12:00');
  });
});
