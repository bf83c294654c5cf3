// Made from plans/intensive-care.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'intensive-care',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'site-work',
      title: 'Look at the site',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'site-assessment',
            display: 'Site assessment',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
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
            expression:
              "'Redness, swelling, tenderness, drainage, a visible cuff or a changed length: tell the responsible clinician.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Feel through an intact dressing; take it off where the site is tender or fever has no other cause.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/intensive-care',
  version: '0.1.0',
  name: 'IntensiveCare',
  title: 'Lines in intensive care',
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
    'A unit layer over the base for intensive care: the site is looked at every 2 hours. The antiseptic bath and the daily question whether the line is still needed stand in the base.',
  action: [
    {
      id: 'site-assessment-intensive-care',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Look at the exit site in intensive care',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'site-assessment',
              display: 'Site assessment',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: site checks every 1 to 2 hours in critical illness and sedation; from memory',
        },
        {
          type: 'documentation',
          display:
            'INS says this of peripheral catheters; of central lines it says at least daily. This layer takes the longer end of it for every line: a choice of the unit.',
        },
        {
          type: 'justification',
          display:
            'Where the setting is not on record the base asks daily: reading every unknown setting as intensive care would ask for twelve looks a day of all lines.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%patient.setting = 'intensive-care'" },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type != 'implanted-port' or %line.accessed",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 2, periodUnit: 'h' } },
      definitionCanonical: '#site-work',
    },
  ],
};
