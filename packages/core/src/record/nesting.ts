// No resource of FHIR comes near it; the functions that walk through one call themselves, and would run out of stack.
const deepest = 100;

/** Whether a resource holds objects or lists within each other that deep that nothing of FHIR can be meant. */
export function isNestedTooDeep(resource: object): boolean {
  const open: { readonly value: object; readonly depth: number }[] = [{ value: resource, depth: 1 }];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    if (at.depth > deepest) return true;
    for (const part of Object.values(at.value) as unknown[])
      if (typeof part === 'object' && part !== null) open.push({ value: part, depth: at.depth + 1 });
  }
  return false;
}
