// No resource of FHIR comes near it; the functions that walk through one call themselves, and would run out of stack.
const deepest = 100;

/** Whether a resource holds objects or lists within each other that deep that nothing of FHIR can be meant. */
export function isNestedTooDeep(resource: object): boolean {
  return isDeeper(resource, deepest);
}

/** It calls itself no more often than there are levels. */
function isDeeper(value: object, levels: number): boolean {
  if (levels === 0) return true;
  for (const name in value) {
    if (!Object.hasOwn(value, name)) continue;
    const part = (value as Readonly<Record<string, unknown>>)[name];
    if (typeof part === 'object' && part !== null && isDeeper(part, levels - 1)) return true;
  }
  return false;
}
