// The package brings no types: what the tests use of it.
declare module 'encender' {
  import type { CarePlan, FhirResource, PlanDefinition, RequestGroup } from 'fhir/r4.js';

  /** Gives what a reference names; everything there is where none is given. */
  export type Resolver = (reference?: string | null) => FhirResource[];

  export function simpleResolver(resources: readonly FhirResource[]): Resolver;

  /** PlanDefinition/$apply: the CarePlan, its RequestGroup, and the resources that the group refers to. */
  export function applyPlan(
    plan: PlanDefinition,
    patient: string,
    resolver: Resolver,
    aux?: { readonly WorkerFactory?: () => unknown; readonly getId?: () => string },
  ): Promise<[CarePlan, RequestGroup, ...FhirResource[]]>;
}
