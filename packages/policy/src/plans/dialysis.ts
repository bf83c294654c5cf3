// Made from plans/dialysis.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'dialysis',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'lock-dialysis-work',
      title: 'Lock the dialysis lumen',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'Goossens 2015',
          citation:
            'Goossens 2015, Nursing Research and Practice 985686, table 4: lock volume is the internal volume and 20 %, with the add-on volume extra, only where the lock is harmless if it reaches the circulation.',
          url: 'https://www.hindawi.com/journals/nrp/2015/985686/tab4/',
        },
        {
          type: 'citation',
          label: 'Dialysis catheter instructions',
          citation: 'Instructions of dialysis catheters: aspirate the lock before use.',
        },
      ],
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'lock',
            display: 'Lock',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:lock-volume',
          expression: { language: 'text/fhirpath', expression: '%calculated.lockVolume' },
        },
        {
          path: 'input:syringe-size',
          expression: { language: 'text/fhirpath', expression: '%calculated.syringeSize' },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'lock solution as prescribed'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pad for the hub'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gloves'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'mask'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'new caps'" } },
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
            expression: "'The volume printed on the limb comes before any computed one.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Aspirate the old lock before the lumen is used or locked anew, so that it does not reach the circulation.'",
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
            expression:
              "'Heparin lock only if the device’s instructions ask for it and it is prescribed; no heparin in heparin-induced thrombocytopenia.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'dressing-change-dialysis-work',
      title: 'Change the dressing of a dialysis catheter',
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
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, (category IB): povidone-iodine, or bacitracin/gramicidin/polymyxin B, ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material of the catheter allows it',
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
        {
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'antiseptic ointment as local policy names it, if the material of the catheter allows it'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'CDC 2011 (IB): povidone-iodine or bacitracin/gramicidin/polymyxin B ointment at the exit site after insertion and at the end of each dialysis session, only where the maker says that the catheter stands it.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/dialysis',
  version: '0.1.0',
  name: 'Dialysis',
  title: 'Dialysis catheters of a unit with sessions on Monday, Wednesday and Friday',
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
    'A unit layer over the base for dialysis catheters: lock and care of the exit site at each session, here Monday, Wednesday and Friday by 20:00. Change days and time to those of the unit.',
  action: [
    {
      id: 'lock-dialysis-session',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock at the end of each session',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'lock',
              display: 'Lock',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'PreCLOT protocol',
          citation:
            'PreCLOT trial (PMC1459124, results 2011): lumens of dialysis catheters locked three times a week, at each session.',
          url: 'https://www.ncbi.nlm.nih.gov/pmc/articles/PMC1459124/',
        },
        {
          type: 'documentation',
          display: 'Days and time are invented: put those of the unit in their place.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { dayOfWeek: ['mon', 'wed', 'fri'], timeOfDay: ['20:00:00'] } },
      definitionCanonical: '#lock-dialysis-work',
    },
    {
      id: 'dressing-change-dialysis-session',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Care for the exit site at each session',
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
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, (category IB): povidone-iodine, or bacitracin/gramicidin/polymyxin B, ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material allows it',
        },
        {
          type: 'documentation',
          display:
            'Days and time are invented: put those of the unit in their place. KHA-CARI asks for a dressing change weekly, or sooner if soiled or not intact (from memory, secondary).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.dressing != 'no-dressing'" },
        },
      ],
      timingTiming: { repeat: { dayOfWeek: ['mon', 'wed', 'fri'], timeOfDay: ['20:00:00'] } },
      definitionCanonical: '#dressing-change-dialysis-work',
    },
  ],
};
