import type { Scope } from '@dwellward/policy';
import type { LineRecord } from '../model/record.js';
import type { Target } from '../model/care.js';

const siteNames = {
  line: { code: 'the-line' },
  'exit-site': { code: 'the-exit-site' },
  incision: { code: 'the-vein-incision' },
} as const;

/** What a rule of this scope is about: the line, each of its lumens, its exit site or its incision. */
export function targetsOf(line: LineRecord, scope: Scope): Target[] {
  if (scope === 'lumen') {
    return line.lumens.map(({ ref, device, name }) => ({ scope, ref, device, name }));
  }
  return [{ scope, ref: line.ref, device: line.ref, name: siteNames[scope] }];
}
