// Made from plans/home-care.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'home-care',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'teaching-work',
      title: 'Teach what to watch for',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'teaching',
            display: 'Teaching',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'written list with the number to call'" },
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
            expression: "'Call for: fever of 38.0 °C (100.5 °F) or more.'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'Call for: chills after a flush.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call for: redness or drainage at the site.'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'Call for: a rash.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call for: swelling of the arm or the neck.'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'Call for: a cuff that shows.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call for: a flush that goes hard (do not force it).'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call for: a break or a leak (clamp between it and the body).'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'Call for: a wet dressing.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Emergency: chest pain or breathlessness; if the line falls out, press on the site and call.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'No blood pressure on that arm; keep the dressing dry, no submersion; a loop of tubing taped; clean hands; scrub the hub for 15 seconds.'",
          },
        },
      ],
    },
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
    {
      resourceType: 'ActivityDefinition',
      id: 'connector-work',
      title: 'Change the needleless connector',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'needleless-connector-change',
            display: 'Needleless connector change',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'needleless connector, filled with saline'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pad for the hub'" },
        },
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
            expression: "'Clamp the lumen before the connector comes off, so that no air gets in.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Scrub the hub and let it dry before the new connector goes on.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'necessity-work',
      title: 'Ask whether the line is still needed',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'necessity-review',
            display: 'Necessity review',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
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
            expression: "'Removal is the decision of the responsible clinician.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/home-care',
  version: '0.1.0',
  name: 'HomeCare',
  title: 'Lines at home',
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
    'A unit layer over the base for patients who live at home with a line: what to watch for is taught when they go home, the site is looked at every day, the cap is changed at least weekly, and the need is asked about at the weekly line care. Sources are public home care sheets; where there is none the rule says so.',
  action: [
    {
      id: 'teaching-at-home',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Teach patient and family what to watch for',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'teaching',
              display: 'Teaching',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Home care sheets',
          citation:
            'A public home care sheet of a university hospital for tunneled catheters: and that of a second hospital: call for fever of 38.0 °C (100.5 °F) or more, chills after a flush, redness or drainage at the site, a rash, swelling of the arm or the neck, a cuff that shows, a flush that goes hard (do not force it), a break or a leak (clamp between it and the body), a wet dressing',
        },
        {
          type: 'citation',
          label: 'Home care sheets',
          citation:
            'Home care sheets of further hospitals: chest pain, breathlessness or a line that falls out are emergencies; no blood pressure on that arm, keep dry, tape a loop, wash hands, scrub the hub for 15 s.',
        },
        {
          type: 'documentation',
          display:
            'No source says when: it is due once the patient is at home, and once only. At 100.5 °F the sheets mean 38.06 °C; 38.0 °C is taken, the earlier call.',
        },
        {
          type: 'justification',
          display: 'Asked for only where the record says that the patient is at home or ambulatory.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%patient.setting in ('home' | 'ambulatory')",
          },
        },
      ],
      timingTiming: {
        repeat: {
          boundsRange: { low: { value: 1, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' } },
          count: 1,
        },
      },
      definitionCanonical: '#teaching-work',
    },
    {
      id: 'site-assessment-home',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Patient or carer looks at the site',
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
          label: 'Home care sheet',
          citation:
            'A public home care sheet of a university hospital for tunneled catheters: look at the site every day.',
        },
        {
          type: 'justification',
          display: 'The rule of the base asks for the same where the setting is not known.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%patient.setting = 'home'" },
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
      definitionCanonical: '#site-work',
    },
    {
      id: 'needleless-connector-change-home',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-minimum-spacing',
          valueDuration: { value: 96, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change the cap at home',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'needleless-connector-change',
              display: 'Needleless connector change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Home care sheet',
          citation:
            'A public home care sheet of a university hospital for tunneled catheters: change the cap at least weekly.',
        },
        {
          type: 'justification',
          display: 'The rule of the base asks for the same where the setting is not known.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%patient.setting = 'home'" },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type != 'implanted-port' or %line.accessed",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#connector-work',
    },
    {
      id: 'necessity-review-home',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Ask at the weekly line care whether the line is still needed',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'necessity-review',
              display: 'Necessity review',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: at home and in ambulatory care the need of a line is asked about at its weekly care.',
        },
        {
          type: 'documentation',
          display:
            'CDC 2011 asks to remove a line promptly when it is no longer essential (category IA); that the need is reviewed daily is said of acute care only.',
        },
        { type: 'justification', display: 'The base asks daily where the setting is not known.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%patient.setting in ('home' | 'ambulatory')",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#necessity-work',
    },
  ],
};
