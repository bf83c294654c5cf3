// Made from plans/neutropenia.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'neutropenia',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'dressing-change-work',
      title: 'Change the dressing',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'dressing-change',
            display: 'Dressing change',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile dressing set'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gloves'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'mask'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'skin antiseptic as local policy names it'" },
        },
        {
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression: "'new dressing of the kind that is in place'",
          },
        },
        {
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression: "'securement device if it is changed with the dressing'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Local policy, the instructions of the device and of each drug, and the responsible clinician come first.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Let the antiseptic dry fully before covering the site.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Hold the catheter while the old dressing comes off; never push back what has slipped out.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Redness, swelling, tenderness or drainage: tell the responsible clinician.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/neutropenia',
  version: '0.1.0',
  name: 'Neutropenia',
  title: 'Daily gauze dressing while neutrophils are very low',
  type: {
    coding: [
      {
        system: 'http://terminology.hl7.org/CodeSystem/plan-definition-type',
        code: 'clinical-protocol',
        display: 'Clinical Protocol',
      },
    ],
  },
  status: 'active',
  experimental: false,
  date: '2026-11-25',
  publisher: 'Dwellward',
  description:
    'A unit layer over the base: while the neutrophil count is below 0.2 10*9/L (200/mm3), a gauze dressing is changed every day. Common practice, no source: no published guideline that was seen ties the dressing interval to the neutrophil count.',
  action: [
    {
      id: 'dressing-change-gauze-low-neutrophils',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Change a gauze dressing daily while neutrophils are very low',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'dressing-change',
              display: 'Dressing change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a gauze dressing every day while the neutrophil count is below 200/mm3.',
        },
        {
          type: 'documentation',
          display:
            'No national guideline with a dressing interval set by the neutrophil count was found. It is a choice of the unit: threshold and interval are local.',
        },
        {
          type: 'documentation',
          display:
            'A count that is not known, or not known to be at or above the limit, is read as low, and a dressing that is not on record as gauze.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.dressing = 'gauze-dressing' and %labs.anc < 0.2 '10*9/L'",
          },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type != 'implanted-port' or %line.accessed",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
      definitionCanonical: '#dressing-change-work',
    },
  ],
};
