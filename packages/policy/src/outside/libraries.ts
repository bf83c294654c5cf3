import type engine from 'fhirpath';
import type r4 from 'fhirpath/fhir-context/r4';

/** The reference FHIRPath engine with its model of R4. */
export interface FhirPath {
  readonly engine: typeof engine;
  readonly r4: typeof r4;
}

/** What is used of the library of UCUM units. */
export interface Ucum {
  readonly UcumLhcUtils: { getInstance(): UcumUtilities };
}

export interface UcumUtilities {
  convertUnitTo(
    from: string,
    value: number,
    to: string,
  ): { status: string; toVal: number | null; msg: string[] };
}
