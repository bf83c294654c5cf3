import type { ShapeName } from './shapes.js';

/** Elements of which a resource may have one, in one of several types. */
const choices: Partial<Record<ShapeName, readonly string[]>> = {
  Observation: ['value', 'effective'],
  Procedure: ['performed'],
  MedicationAdministration: ['effective', 'medication'],
  DeviceUseStatement: ['timing'],
  ServiceRequest: ['occurrence'],
};

/** Choice elements that are there more than once: which of them is meant can’t be known. */
export function doubledChoices(
  type: ShapeName,
  resource: Record<string, unknown>,
): { readonly path: string; readonly keys: readonly string[] }[] {
  return (choices[type] ?? []).flatMap((name) => {
    const keys = Object.keys(resource).filter(
      (key) => key.startsWith(name) && isCapital(key, name.length) && resource[key] !== undefined,
    );
    return keys.length > 1 ? [{ path: `${type}.${name}[x]`, keys: keys.sort() }] : [];
  });
}

function isCapital(text: string, at: number): boolean {
  const sign = text[at] ?? '';
  return sign >= 'A' && sign <= 'Z';
}

// HL7 FHIR R4 4.0.1, the list of resources.
const resourceTypes = new Set(
  `Account ActivityDefinition AdverseEvent AllergyIntolerance Appointment AppointmentResponse AuditEvent Basic Binary
  BiologicallyDerivedProduct BodyStructure Bundle CapabilityStatement CarePlan CareTeam CatalogEntry ChargeItem
  ChargeItemDefinition Claim ClaimResponse ClinicalImpression CodeSystem Communication CommunicationRequest
  CompartmentDefinition Composition ConceptMap Condition Consent Contract Coverage CoverageEligibilityRequest
  CoverageEligibilityResponse DetectedIssue Device DeviceDefinition DeviceMetric DeviceRequest DeviceUseStatement
  DiagnosticReport DocumentManifest DocumentReference EffectEvidenceSynthesis Encounter Endpoint EnrollmentRequest
  EnrollmentResponse EpisodeOfCare EventDefinition Evidence EvidenceVariable ExampleScenario ExplanationOfBenefit
  FamilyMemberHistory Flag Goal GraphDefinition Group GuidanceResponse HealthcareService ImagingStudy Immunization
  ImmunizationEvaluation ImmunizationRecommendation ImplementationGuide InsurancePlan Invoice Library Linkage List
  Location Measure MeasureReport Media Medication MedicationAdministration MedicationDispense MedicationKnowledge
  MedicationRequest MedicationStatement MedicinalProduct MedicinalProductAuthorization
  MedicinalProductContraindication MedicinalProductIndication MedicinalProductIngredient
  MedicinalProductInteraction MedicinalProductManufactured MedicinalProductPackaged MedicinalProductPharmaceutical
  MedicinalProductUndesirableEffect MessageDefinition MessageHeader MolecularSequence NamingSystem NutritionOrder
  Observation ObservationDefinition OperationDefinition OperationOutcome Organization OrganizationAffiliation
  Parameters Patient PaymentNotice PaymentReconciliation Person PlanDefinition Practitioner PractitionerRole
  Procedure Provenance Questionnaire QuestionnaireResponse RelatedPerson RequestGroup ResearchDefinition
  ResearchElementDefinition ResearchStudy ResearchSubject RiskAssessment RiskEvidenceSynthesis Schedule
  SearchParameter ServiceRequest Slot Specimen SpecimenDefinition StructureDefinition StructureMap Subscription
  Substance SubstanceNucleicAcid SubstancePolymer SubstanceProtein SubstanceReferenceInformation
  SubstanceSourceMaterial SubstanceSpecification SupplyDelivery SupplyRequest Task TerminologyCapabilities
  TestReport TestScript ValueSet VerificationResult VisionPrescription`.split(/\s+/),
);

// HL7 FHIR R4B 4.3.0 and R5 5.0.0: those that R4 does not have.
const laterResourceTypes = new Set(
  `ActorDefinition AdministrableProductDefinition ArtifactAssessment BiologicallyDerivedProductDispense Citation
  ClinicalUseDefinition ConditionDefinition DeviceAssociation DeviceDispense DeviceUsage EncounterHistory EvidenceReport
  FormularyItem GenomicStudy ImagingSelection Ingredient InventoryItem InventoryReport ManufacturedItemDefinition
  MedicinalProductDefinition NutritionIntake NutritionProduct PackagedProductDefinition Permission
  RegulatedAuthorization RequestOrchestration Requirements SubscriptionStatus SubscriptionTopic SubstanceDefinition
  TestPlan Transport`.split(/\s+/),
);

/**
 * Whether FHIR has a resource of this type: one that is not read is no concern of ours, a misspelt one is.
 * @example
 * ```ts
 * isResourceType('Practitioner'); // true
 * ```
 */
export function isResourceType(type: string): boolean {
  return resourceTypes.has(type) || laterResourceTypes.has(type);
}
