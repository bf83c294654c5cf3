// What a bundler takes, and any machine but Node: a bundle holds the libraries like anything else.
// @ts-expect-error The library ships no types; what is used of it is described in ucum.ts.
import ucumLibrary from '@lhncbc/ucum-lhc';
import engine from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4';
import { z } from 'zod';
import type { FhirPath, Ucum } from './libraries.js';

/** The reference FHIRPath engine with its model of R4. */
export const fhirPath = (): FhirPath => ({ engine, r4 });

/** The reference library of UCUM units. */
export const ucum = (): Ucum => ucumLibrary as Ucum;

/** The schema library. */
export const zod = (): typeof z => z;
