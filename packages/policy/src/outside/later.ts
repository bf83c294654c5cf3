// What Node takes: each library is loaded when it is first asked for. Together they take longer than all else, and the
// bundled plans over a record as it should be need none of them. `package.json` says who takes which, under `imports`.
import { createRequire } from 'node:module';
import type { z } from 'zod';
import type { FhirPath, Ucum } from './libraries.js';

const load = createRequire(import.meta.url);

let loaded: FhirPath | undefined;

/** The reference FHIRPath engine with its model of R4. */
export const fhirPath = (): FhirPath =>
  (loaded ??= {
    engine: load('fhirpath') as FhirPath['engine'],
    r4: load('fhirpath/fhir-context/r4') as FhirPath['r4'],
  });

/** The reference library of UCUM units. */
export const ucum = (): Ucum => load('@lhncbc/ucum-lhc') as Ucum;

/** The schema library. */
export const zod = (): typeof z => (load('zod') as { readonly z: typeof z }).z;
