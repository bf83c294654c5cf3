import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** A resource as an official package has it. */
export interface Example {
  /** `Device-example.json`. */
  readonly file: string;
  readonly resource: Resource;
}

export interface Resource {
  readonly resourceType: string;
  readonly id?: string;
  readonly [element: string]: unknown;
}

/** Every FHIR resource among the files of a package, in the order of their names. */
export function* examplesOf(name: string): Generator<Example> {
  const folder = fileURLToPath(new URL(`node_modules/${name}/`, import.meta.url));
  if (!existsSync(folder)) throw new Error(`${name} is not here: npm ci in tests/examples installs it.`);
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.json') && !/(^|\/)(package|\.index)\.json$/.test(file))
    .sort();
  for (const file of files) {
    const text = readFileSync(`${folder}${file}`, 'utf8').replace(/^\uFEFF/, '');
    const resource = JSON.parse(text) as Resource;
    if (typeof resource.resourceType === 'string') yield { file, resource };
  }
}

/** One resource of a file, or of a Bundle or a resource that contains it. */
export interface Part {
  readonly resource: Resource;
  readonly fullUrl?: string;
}

/** The entries of a Bundle, or the resource itself. */
export function partsOf(resource: Resource): Part[] {
  if (resource.resourceType !== 'Bundle') return [{ resource }];
  const entries = (resource['entry'] ?? []) as readonly Partial<Part>[];
  return entries.flatMap(({ resource: inner, fullUrl }): Part[] => {
    if (inner === undefined) return [];
    if (inner.resourceType === 'Bundle') return partsOf(inner);
    return [{ resource: inner, ...(fullUrl === undefined ? {} : { fullUrl }) }];
  });
}
