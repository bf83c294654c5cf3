import { bloodTypes } from '@dwellward/profiles';
import { codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { DrawnBlood, Ref } from '../model/record.js';
import { readRange, sentOf, sentUnit } from './quantities.js';
import type { Codeable } from './shapes.js';
import { recordedTime } from './times.js';
import { addTo } from '../model/gather.js';

/**
 * The blood that was drawn from every patient, by its Specimens, also those that say no volume or no time. One that does not say of what it is
 * stands with `sure` false; one of anything else is left out. Discards are on no Specimen.
 */
export function readDrawnBlood(index: ResourceIndex, issues: IssueList): Map<Ref, DrawnBlood[]> {
  const byPatient = new Map<Ref, DrawnBlood[]>();
  for (const { ref, value } of index.all('Specimen')) {
    const patient = index.nameOf(value.subject, ref);
    const kind = kindOf(value.type);
    if (!patient || kind === 'other' || value.status === 'entered-in-error') continue;
    const { collection, container = [] } = value;
    const at = recordedTime(
      collection?.collectedDateTime ?? collection?.collectedPeriod?.end ?? collection?.collectedPeriod?.start,
    );
    const quantity = collection?.quantity ?? container.find((one) => one.specimenQuantity)?.specimenQuantity;
    const sure = kind === 'blood';
    const put = (volumeMl: string | undefined) =>
      addTo(byPatient, patient, {
        ref,
        ...(at ? { at } : {}),
        ...(volumeMl === undefined ? {} : { volumeMl }),
        sure,
      });
    if (!quantity) {
      put(undefined);
      continue;
    }
    const reading = readRange(quantity, sentUnit(quantity), 'mL');
    // Of a limit the upper end: blood that may have been lost counts as lost.
    const volumeMl = reading.ok ? (reading.range.high ?? reading.range.low) : undefined;
    if (volumeMl === undefined)
      issues.add(
        reading.ok ? 'unreadable' : reading.code,
        ref,
        'Specimen.collection.quantity',
        {
          code: 'volume-not-used',
          sent: sentOf(quantity),
          ...(reading.ok ? {} : { reason: reading.reason }),
        },
        { patient },
      );
    put(volumeMl);
  }
  return byPatient;
}

function kindOf(type: Codeable | undefined): 'blood' | 'other' | 'unknown' {
  const known = Object.entries(bloodTypes).map(([system, codes]) => ({
    codes,
    found: codesOf(system, type),
  }));
  if (known.some(({ codes, found }) => found.some((code) => codes.includes(code)))) return 'blood';
  return known.some(({ found }) => found.length > 0) ? 'other' : 'unknown';
}
