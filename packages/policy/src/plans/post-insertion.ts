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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'See that every clamp is closed before any cap comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at the exit site and the vein incision: bleeding, haematoma, drainage, swelling.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look whether the dressing is dry and closed on all sides, and whether the line lies as it was secured.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Ask about pain and breathlessness; listen to the breathing.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart what was found, also that nothing was.'",
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'See that every clamp is closed before any cap comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'One lumen at a time: scrub the connector and let it dry, connect a syringe of at least ' & %calculated.syringeSize & ', open the clamp of this lumen only.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Draw back until blood is seen, and see how briskly it comes.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pushes of about 1 mL with a pause after each. Never force.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Close the clamp, lock as prescribed, then take the next lumen.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Compare the lumens: one that is slower to draw or harder to flush than the other is charted as such.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart blood return and resistance for this lumen by its name.'",
          },
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'See that every clamp is closed before any cap comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Hold the catheter and take the first dressing off towards the exit site.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at and feel the exit site; measure the external length and compare it with the length at the insertion.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Clean the skin with the antiseptic and let it dry fully.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Put on the new dressing, of gauze while the site bleeds or oozes, and secure the line.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart the dressing, the site and the length.'",
          },
        },
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
      id: 'incision-work',
      title: 'Clean and dress the vein incision',
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'See that every clamp is closed before any cap comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Take the old dressing of the incision off; leave that of the exit site closed.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at and feel the incision: bleeding, haematoma, drainage, redness, edges that gape.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Clean the incision with the antiseptic, from the middle outwards, and let it dry fully.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Put on a new sterile dressing.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Chart the dressing with the site incision, and whether the incision has healed: healed ends this care.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile dressing set'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gloves'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'skin antiseptic as local policy names it'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile dressing for the incision'" },
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
            expression: "'Not healed counts until the record says that it is.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Bleeding, pus, redness or edges that gape: tell the responsible clinician.'",
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
    {
      resourceType: 'ActivityDefinition',
      id: 'new-site-work',
      title: 'First steps when a new site drains much or swells',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'new-site-response',
            display: 'New site response',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'See that every clamp is closed before any cap comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Drains much: press on the site with sterile gauze until it stops.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Swells: cold on the swelling, over a cloth, and mark its edge.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at clamps, caps and connections: what comes out of the line is stopped by its clamp.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Growing, throbbing or tense, neck or chest swollen, short of breath: call the responsible clinician at once.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'When it has stopped: gauze dressing, and look again within the hour.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart the site, exit site or incision, and what was done.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gauze'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gauze dressing'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'cold pack and cloth'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'skin marker'" } },
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
            expression: "'Blood that runs is bleeding: its own first steps come before these.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'No cold on skin that is numb or poorly perfused.'",
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
    'A layer over the base for units that receive new lines: the site and the vein incision are looked at every 15 minutes in the first hour and every hour in the next four, every lumen is tested, the first dressing is changed the day after, the vein incision is cleaned and dressed daily until it has healed, a new site that drains much or swells has first steps (the same as in the layer trouble), and the stitches of a tunneled line come out after three weeks. Common practice, no source, but for the first dressing.',
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
            'Common practice, no source: every lumen of a new line is tested in the first hour: blood drawn back, flushed in pulses, never forced, the lumens compared; every clamp closed before any cap comes off.',
        },
        { type: 'documentation', display: 'Pulses of about 1 mL: INS, MASCC (from memory).' },
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
      id: 'dressing-change-incision',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'incision' },
      ],
      title: 'Clean and dress the vein incision until it has healed',
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
            'Common practice, no source: the vein incision is cleaned and dressed daily until it has healed; every clamp closed before any cap comes off.',
        },
        {
          type: 'documentation',
          display:
            'No guideline gives a day on which it has healed: the record has to say so (finding incision-healed), and until then it counts as not healed.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter' | 'implanted-port')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.incisionHealed.not()' },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
      definitionCanonical: '#incision-work',
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
    {
      id: 'new-site-response-exit-site',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'A new exit site drains much or swells: first steps',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'new-site-response',
              display: 'New site response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: in the first days after an insertion pressure on a site that drains much, cold on a swelling.',
        },
        {
          type: 'documentation',
          display:
            'The first days are read as those up to the third after the day of the insertion, by the day on which it was seen: a reading, not a published value. Later drainage and swelling are signs of infection; redness, tenderness and pus are at once.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.signDwellDays <= 3' },
        },
      ],
      trigger: [
        {
          type: 'data-added',
          data: [
            {
              type: 'Observation',
              codeFilter: [
                {
                  path: 'code',
                  code: [
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/line-finding',
                      code: 'exit-site',
                      display: 'Exit site',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'drainage' }, { code: 'swelling' }] },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#new-site-work',
    },
    {
      id: 'new-site-response-incision',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'incision' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'A new incision drains much or swells: first steps',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'new-site-response',
              display: 'New site response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: in the first days after an insertion pressure on a site that drains much, cold on a swelling.',
        },
        {
          type: 'documentation',
          display:
            'The first days are read as those up to the third after the day of the insertion, by the day on which it was seen: a reading, not a published value. Later drainage and swelling are signs of infection; redness, tenderness and pus are at once.',
        },
        {
          type: 'justification',
          display: 'A line whose insertion is not on record is not read as a new one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.signDwellDays <= 3' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'tunneled-dialysis-catheter' | 'implanted-port')",
          },
        },
      ],
      trigger: [
        {
          type: 'data-added',
          data: [
            {
              type: 'Observation',
              codeFilter: [
                {
                  path: 'code',
                  code: [
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/line-finding',
                      code: 'exit-site',
                      display: 'Exit site',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'drainage' }, { code: 'swelling' }] },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#new-site-work',
    },
  ],
};
