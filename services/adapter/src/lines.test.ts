import { lineTokens, readRecords } from '@dwellward/core';
import type { Device } from 'fhir/r4.js';
import { expect, it } from 'vitest';

it.each(lineTokens().devices.filter((token) => token !== 'lumen'))(
  'looks for %s, which is read as a line',
  (token) => {
    const [system, code] = token.includes('|') ? token.split('|') : [undefined, token];
    const coding = [{ ...(system === undefined ? {} : { system }), code: code! }];
    const device: Device = {
      resourceType: 'Device',
      id: 'd',
      type: { coding },
      patient: { reference: 'Patient/p' },
    };
    expect(readRecords([{ resource: device }]).lines).toHaveLength(1);
  },
);
