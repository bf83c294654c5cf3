import type { Scope } from '@dwellward/policy';
import type { LineRecord } from '../model/record.js';
import type { Target } from '../model/care.js';

const siteNames = {
  line: { code: 'the-line' },
  'exit-site': { code: 'the-exit-site' },
  incision: { code: 'the-vein-incision' },
} as const;

// Every rule asks for them, and what is known of a target is kept under it: of one line they stay the same.
const targets = new WeakMap<LineRecord, Map<Scope, readonly Target[]>>();

/** What a rule of this scope is about: the line, each of its lumens, its exit site or its incision. */
export function targetsOf(line: LineRecord, scope: Scope): readonly Target[] {
  let ofLine = targets.get(line);
  if (ofLine === undefined) targets.set(line, (ofLine = new Map()));
  let found = ofLine.get(scope);
  if (found === undefined) ofLine.set(scope, (found = madeOf(line, scope)));
  return found;
}

function madeOf(line: LineRecord, scope: Scope): readonly Target[] {
  if (scope === 'lumen') return line.lumens.map(({ ref, device, name }) => ({ scope, ref, device, name }));
  return [{ scope, ref: line.ref, device: line.ref, name: siteNames[scope] }];
}
