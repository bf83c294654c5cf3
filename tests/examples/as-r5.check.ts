import { demoUnit, demoUpdate } from '@dwellward/fixtures';
import type { Bundle, FhirResource } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { asR5 } from '../conformance/as-r5.js';
import { examplesOf } from './packages.js';

// The StructureDefinitions of R5 5.0.0, package hl7.fhir.r5.core, CC0.

interface Element {
  readonly path: string;
  readonly max: string;
  readonly type?: readonly { readonly code: string }[];
  readonly contentReference?: string;
}

const elements = new Map<string, Element>();
for (const { resource } of examplesOf('hl7.fhir.r5.core'))
  if (resource.resourceType === 'StructureDefinition' && resource['derivation'] !== 'constraint')
    for (const element of (resource['snapshot'] as { element: Element[] } | undefined)?.element ?? [])
      elements.set(element.path, element);

/** What of a value R5 does not have in its place, or has in another number. */
function wrong(path: string, value: object): string[] {
  return Object.entries(value).flatMap(([key, member]: [string, unknown]) => {
    if (key === 'resourceType') return [];
    const found = elementAt(path, key);
    if (found === undefined) return [`${path}.${key}`];
    const { element, type } = found;
    if (Array.isArray(member) !== (element.max !== '1')) return [`${path}.${key} (number)`];
    return [member].flat().flatMap((one: unknown) => {
      if (typeof one !== 'object' || one === null) return [];
      if (type === 'Resource') return wrong((one as { resourceType: string }).resourceType, one);
      return wrong(type === 'BackboneElement' || type === 'Element' ? element.path : type, one);
    });
  });
}

function elementAt(
  path: string,
  key: string,
): { readonly element: Element; readonly type: string } | undefined {
  const plain = elements.get(`${path}.${key}`);
  if (plain) {
    if (plain.contentReference) return { element: plain, type: plain.contentReference.replace(/^.*#/, '') };
    return { element: plain, type: plain.type?.[0]?.code ?? 'Element' };
  }
  for (const [at, element] of elements) {
    if (!at.startsWith(`${path}.`) || !at.endsWith('[x]')) continue;
    const name = at.slice(path.length + 1, -3);
    const type = element.type?.find(({ code }) => key === `${name}${code[0]?.toUpperCase()}${code.slice(1)}`);
    if (type) return { element, type: type.code };
  }
  return undefined;
}

describe('the demo unit as R5', () => {
  it('has nothing that R5 does not have, each as often as R5 has it', () => {
    const resources = [demoUnit(), demoUpdate()].flatMap((bundle) => asR5(bundle as Bundle<FhirResource>));
    expect(resources.length).toBeGreaterThan(350);
    const found = resources.flatMap(({ resource }) => wrong(String(resource['resourceType']), resource));
    expect([...new Set(found)]).toEqual([]);
    // The check itself sees what is of R4.
    expect(wrong('Device', { type: {}, deviceName: [{ name: 'x' }] })).toEqual([
      'Device.type (number)',
      'Device.deviceName',
    ]);
  });
});
