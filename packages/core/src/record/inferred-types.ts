import type { LineType } from '@dwellward/profiles';
import { activityOf, typeByInsertion } from './codes.js';
import { deviceRefsOf } from './procedure-devices.js';
import type { ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { Ref } from '../model/record.js';
import { outcomeOf } from './outcomes.js';
import { addTo } from '../model/gather.js';

interface Said {
  readonly type: LineType | 'dialysis';
  readonly by: Ref;
}

/** What the insertions that are completed say, by their codes, of each Device that they put in. */
export function typesByInsertion(index: ResourceIndex): ReadonlyMap<Ref, readonly Said[]> {
  const said = new Map<Ref, Said[]>();
  for (const procedure of index.all('Procedure')) {
    const { ref, value } = procedure;
    const type = typeByInsertion(value.code);
    if (type === undefined || value.status !== 'completed') continue;
    if (activityOf(value.code) !== 'insertion' || outcomeOf('insertion', value.outcome) !== 'counts')
      continue;
    for (const device of deviceRefsOf(procedure, index)) addTo(said, device, { type, by: ref });
  }
  return said;
}

/**
 * The type of a line: its Device’s own, unless that is missing or as plain as “tunneled” and the code of the insertion says
 * more. A registry codes a dialysis line by its tunnel alone, and a dialysis line that is taken for another one gets its lock
 * flushed into the patient: so the insertion that says “dialysis” is believed, and that is said. Of a dialysis catheter
 * that may have a tunnel or not, the one without is read, which is looked at more closely.
 */
export function lineTypeBy(
  device: Ref,
  own: LineType | undefined,
  said: readonly Said[],
  issues: IssueList,
): LineType | undefined {
  const fits = said.filter(({ type }) => refines(own, type));
  const other = said.find((one) => !fits.includes(one) && one.type !== own && !isSame(own, one.type));
  if (other && own !== undefined)
    issues.add(
      'conflicting-values',
      device,
      'Device.type',
      { code: 'insertion-says-another-type', type: own, said: typeFor(own, other.type) },
      { severity: 'high', line: device, related: [other.by] },
    );
  // The insertion that says the most: dialysis before a tunnel.
  const [best] = [...fits].sort((a, b) => rank(a.type) - rank(b.type) || (a.by < b.by ? -1 : 1));
  if (best === undefined) return own;
  const type = typeFor(own, best.type);
  issues.add(
    'unknown-code',
    device,
    'Device.type',
    { code: 'type-by-insertion', type, ...(own === undefined ? {} : { own }) },
    { line: device, related: [best.by] },
  );
  return type;
}

const dialysis: ReadonlySet<string> = new Set([
  'dialysis',
  'tunneled-dialysis-catheter',
  'nontunneled-dialysis-catheter',
]);

function rank(type: Said['type']): number {
  return dialysis.has(type) ? 0 : 1;
}

function refines(own: LineType | undefined, said: Said['type']): boolean {
  if (own === undefined) return true;
  return (own === 'tunneled-cvc' || own === 'nontunneled-cvc') && dialysis.has(said);
}

function isSame(own: LineType | undefined, said: Said['type']): boolean {
  if (own === undefined || own === said) return true;
  if (said === 'dialysis') return dialysis.has(own);
  // A plain insertion of a line with or without a tunnel says nothing against a dialysis line of that kind.
  return own.replace('-dialysis-catheter', '-cvc') === said;
}

function typeFor(own: LineType | undefined, said: Said['type']): LineType {
  if (said !== 'dialysis') return said;
  return own === 'tunneled-cvc' ? 'tunneled-dialysis-catheter' : 'nontunneled-dialysis-catheter';
}
