import { demoInstant } from '@dwellward/fixtures';
import { codeSystem } from '@dwellward/profiles';
import type { Bundle, FhirResource } from 'fhir/r4.js';
import { expect, it } from 'vitest';
import { isAccessible, launch, open } from './page.js';
import { startUnit } from './unit.js';

// What a record holds is shown as text, whatever it would like to be; the pages run nothing but their own script.

const attack = '<img src=x onerror=alert(1)>';
const coded = (system: string, code: string) => ({ coding: [{ system, code }] });

function hostileUnit(): Bundle<FhirResource> {
  const patient = { reference: 'Patient/hostile' };
  const resources: FhirResource[] = [
    { resourceType: 'Patient', id: 'hostile', name: [{ text: attack }], birthDate: '1980-05-05' },
    {
      resourceType: 'Device',
      id: 'hostile-line',
      status: 'active',
      type: coded(codeSystem.lineType, 'picc'),
      patient,
      deviceName: [{ name: `"><script>alert(2)</script>`, type: 'user-friendly-name' }],
    },
    {
      resourceType: 'Procedure',
      id: 'hostile-insertion',
      status: 'completed',
      code: coded(codeSystem.lineCareActivity, 'insertion'),
      subject: patient,
      performedDateTime: '2026-11-20T10:00:00+01:00',
      focalDevice: [{ manipulated: { reference: 'Device/hostile-line' } }],
      note: [{ text: 'javascript:alert(3)' }],
    },
  ];
  return {
    resourceType: 'Bundle',
    type: 'collection',
    entry: resources.map((resource) => ({
      fullUrl: `https://dwellward.example/fhir/${resource.resourceType}/${resource.id}`,
      resource,
    })),
  };
}

it('a patient whose name is a script harms nothing, on any page', async () => {
  const [unit, browser] = await Promise.all([startUnit(hostileUnit(), demoInstant), launch()]);
  try {
    for (const hash of ['', '#/line/Device/hostile-line', '#/handover', '#/supplies']) {
      const { page, said } = await open(browser, `${unit.board.url}${hash}`);
      expect(await page.locator('main').textContent()).toContain(
        hash === '#/handover' ? 'img src=x' : attack,
      );
      expect(await page.locator('main img, main script').count()).toBe(0);
      await isAccessible(page);
      expect(said).toEqual([]);
      await page.context().close();
    }
  } finally {
    await browser.close();
    await unit.close();
  }
});
