// Made from plans/post-insertion.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'post-insertion',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'first-site-work',
      title: 'Look at the new site',
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
              "'Bleeding, haematoma, swelling or breathlessness: tell the responsible clinician at once.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Every clamp closed before a cap comes off.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'first-patency-work',
      title: 'Test every lumen of a new line',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'patency-assessment',
            display: 'Patency assessment',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:syringe-size',
          expression: { language: 'text/fhirpath', expression: '%calculated.syringeSize' },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 %'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pad for the connector'" },
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
          expression: { language: 'text/fhirpath', expression: "'Never use a syringe smaller than 10 mL.'" },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'Stop on resistance: do not force.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Every clamp closed before a cap comes off.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Nothing is given before the tip is confirmed.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'dressing-change-work',
      title: 'Change the dressing',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, dressing regimens, recommendation 2 (category II): gauze where the patient sweats heavily or the site bleeds or oozes, until it is resolved; from memory',
        },
        {
          type: 'citation',
          label: 'epic3 2014',
          citation:
            'epic3 2014, national evidence-based guidelines (England): gauze only for sweating or bleeding, a transparent dressing again as soon as possible; 2 % chlorhexidine in 70 % alcohol for the skin; from memory',
        },
      ],
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
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Heavy sweating, bleeding or oozing: gauze until it has stopped, then a transparent dressing again.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'suture-work',
      title: 'Take the stitches out',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'suture-removal',
            display: 'Suture removal',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile suture set'" },
        },
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
            expression: "'Hold the catheter: the cuff must have healed in before the stitches are out.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Only stitches of the exit site, and only on the word of the responsible clinician.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/post-insertion',
  version: '0.1.0',
  name: 'PostInsertion',
  title: 'The first hours, the first dressing and the stitches of a new line',
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
    'A layer over the base for units that receive new lines: the site and the vein incision are looked at every 15 minutes in the first hour and every hour in the next four, every lumen is tested, the first dressing is changed the day after, and the stitches of a tunneled line come out after three weeks. Common practice, no source, but for the first dressing.',
  action: [
    {
      id: 'site-assessment-first-hour-exit-site',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Look at the new exit site, first hour',
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
          label: 'Common practice',
          citation:
            'Common practice, no source: after an insertion look for bleeding, haematoma and swelling every 15 minutes four times, then every hour four times.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1' },
        },
      ],
      timingTiming: {
        repeat: {
          boundsDuration: { value: 1, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
          count: 4,
          frequency: 1,
          period: 15,
          periodUnit: 'min',
        },
      },
      definitionCanonical: '#first-site-work',
    },
    {
      id: 'site-assessment-first-day-exit-site',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Look at the new exit site, hours two to five',
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
          label: 'Common practice',
          citation:
            'Common practice, no source: after an insertion look for bleeding, haematoma and swelling every 15 minutes four times, then every hour four times.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1' },
        },
      ],
      timingTiming: {
        repeat: {
          boundsDuration: { value: 5, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
          count: 8,
          frequency: 1,
          period: 1,
          periodUnit: 'h',
        },
      },
      definitionCanonical: '#first-site-work',
    },
    {
      id: 'site-assessment-first-hour-incision',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'incision' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Look at the new incision, first hour',
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
          label: 'Common practice',
          citation:
            'Common practice, no source: after an insertion look for bleeding, haematoma and swelling every 15 minutes four times, then every hour four times.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter' | 'implanted-port')",
          },
        },
      ],
      timingTiming: {
        repeat: {
          boundsDuration: { value: 1, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
          count: 4,
          frequency: 1,
          period: 15,
          periodUnit: 'min',
        },
      },
      definitionCanonical: '#first-site-work',
    },
    {
      id: 'site-assessment-first-day-incision',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'incision' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Look at the new incision, hours two to five',
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
          label: 'Common practice',
          citation:
            'Common practice, no source: after an insertion look for bleeding, haematoma and swelling every 15 minutes four times, then every hour four times.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter' | 'implanted-port')",
          },
        },
      ],
      timingTiming: {
        repeat: {
          boundsDuration: { value: 5, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
          count: 8,
          frequency: 1,
          period: 1,
          periodUnit: 'h',
        },
      },
      definitionCanonical: '#first-site-work',
    },
    {
      id: 'patency-assessment-first',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Test every lumen of a new line',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'patency-assessment',
              display: 'Patency assessment',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: every lumen of a new line is flushed and tested for blood return in the first hour.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type != 'implanted-port' or %line.accessed",
          },
        },
      ],
      timingTiming: {
        repeat: {
          boundsRange: { low: { value: 1, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' } },
          count: 1,
        },
      },
      definitionCanonical: '#first-patency-work',
    },
    {
      id: 'dressing-change-first',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change the first dressing the day after the insertion',
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
          label: 'NHS Ayrshire & Arran G004',
          citation:
            'NHS Ayrshire & Arran, guideline G004 (adult cancer care, Scotland): peripherally inserted and tunneled catheters: full care of the site the day after the insertion, then weekly',
        },
        {
          type: 'documentation',
          display:
            'A regional guideline. CDC, SHEA and INS have no rule of their own for the first dressing; common policy changes a gauze or blood-stained one within 24 hours (from memory).',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 7' },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type in ('picc' | 'tunneled-cvc')" },
        },
      ],
      timingTiming: {
        repeat: {
          boundsRange: { low: { value: 1, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' } },
          count: 1,
        },
      },
      definitionCanonical: '#dressing-change-work',
    },
    {
      id: 'suture-removal-tunneled',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Take out the stitches of a tunneled line',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'suture-removal',
              display: 'Suture removal',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: the stitches at the exit site of a tunneled, cuffed line come out after about 3 weeks, when the cuff has healed in.',
        },
        { type: 'justification', display: 'Asked for only where the record says that there are stitches.' },
      ],
      condition: [
        { kind: 'applicability', expression: { language: 'text/fhirpath', expression: '%line.sutured' } },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter')",
          },
        },
      ],
      timingTiming: {
        repeat: {
          boundsRange: { low: { value: 21, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' } },
          count: 1,
        },
      },
      definitionCanonical: '#suture-work',
    },
  ],
};
