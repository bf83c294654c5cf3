// Made from plans/common-practice.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'common-practice',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'idle-flush-work',
      title: 'Irrigate a lumen that is not in use',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'flush',
            display: 'Flush',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:flush-volume',
          expression: { language: 'text/fhirpath', expression: '%calculated.flushVolume' },
        },
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
              "'Scrub the connector and let it dry; connect a syringe of at least ' & %calculated.syringeSize & ' and open the clamp of this lumen.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Draw back until blood is seen, then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pulses. Never force.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Lock anew with ' & %calculated.lockVolume & ' of what is prescribed, and clamp.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Chart flush and lock with the lumen.'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 % for flushing'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'lock solution as prescribed'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pad for the connector'" },
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
          expression: { language: 'text/fhirpath', expression: "'Never use a syringe smaller than 10 mL.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Stop on resistance: do not force; look for a kink, a closed clamp or a blocked lumen.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'The lock of a dialysis catheter is drawn off, never flushed in.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'idle-lock-work',
      title: 'Lock a lumen anew after it was irrigated',
      status: 'active',
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Lock with ' & %calculated.lockVolume & ' of what is prescribed, and close the clamp while the last of it goes in.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Chart the lock with the lumen.'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'lock solution as prescribed'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pad for the connector'" },
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
            expression: "'Saline unless the device’s instructions or the prescription ask for another lock.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Heparin lock only if the device’s instructions ask for it and it is prescribed; not 100 units/mL in neonates and infants; no heparin in heparin-induced thrombocytopenia.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'idle-cap-work',
      title: 'Change the cap of a lumen that is not in use',
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
            expression: "'Take the old cap off, scrub the hub and let it dry.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Put on the new cap, filled with saline.'" },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Chart the change with the lumen.'" },
        },
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
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'clamp-work',
      title: 'Move the clamp and its sleeve',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'clamp-position-change',
            display: 'Clamp position change',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Put a tape sleeve around the line at a new place, a hand’s breadth or more from the hub and clear of the exit site.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Close a second clamp on the new sleeve before the old one is opened: the line is never without a closed clamp.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at the place under the old sleeve: flat, cracked or sticky: clamp between it and the body and tell the responsible clinician.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Take the old sleeve off without scissors, and chart the new place.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamp without teeth'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'second clamp without teeth'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'tape for the sleeve'" },
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
          expression: { language: 'text/fhirpath', expression: "'No scissors near the line.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Never clamp the bare line, nor twice at the same place.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/common-practice',
  version: '0.1.0',
  name: 'CommonPractice',
  title: 'Idle lumens and loose clamps, by common practice',
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
    'A layer over the base for units that keep to what is common practice without a published source: a lumen in no daily use is irrigated every day, locked anew and given a new cap every week, and the clamp of a line without clamps of its own moves with its sleeve every week. The instructions of the device come first.',
  action: [
    {
      id: 'flush-idle-daily',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Irrigate a lumen that is in no daily use',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'flush',
              display: 'Flush',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a locked lumen that is in no daily use is irrigated every day.',
        },
        {
          type: 'documentation',
          display:
            'Other values: weekly for peripherally inserted and tunneled catheters (NHS Ayrshire & Arran G004, in the base).',
        },
        {
          type: 'documentation',
          display:
            'Not dialysis catheters: their lock is drawn off. Not ports without a needle. A lumen whose use is not known is read as idle.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'midline')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
      definitionCanonical: '#idle-flush-work',
    },
    {
      id: 'flush-idle',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Irrigation of a lumen',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'flush',
              display: 'Flush',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation: 'Common practice, no source: the irrigation is the event that the lock counts from.',
        },
      ],
    },
    {
      id: 'lock-after-irrigation',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen anew after it was irrigated',
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
          label: 'US labels of heparin lock flush',
          citation: 'US labels of heparin lock flush solutions: the lock is replaced after every use (seen)',
        },
        { type: 'documentation', display: 'Saline as a lock is treated alike: common practice, no source.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'midline')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      relatedAction: [
        {
          actionId: 'flush-idle',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#idle-lock-work',
    },
    {
      id: 'needleless-connector-change-idle',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-minimum-spacing',
          valueDuration: { value: 96, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      title: 'Change the cap of a lumen that is in no daily use',
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
          label: 'Common practice',
          citation: 'Common practice, no source: the cap of a locked lumen is changed every week.',
        },
        {
          type: 'documentation',
          display:
            'The same in a public home care sheet (cap at least weekly, seen) and in NHS Ayrshire & Arran G004 (seen).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'midline')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#idle-cap-work',
    },
    {
      id: 'clamp-position-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Move the clamp of a line that has none of its own',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'clamp-position-change',
              display: 'Clamp position change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: the clamp of a line without clamps of its own sits over a tape sleeve, and both move to a new place every week.',
        },
        {
          type: 'justification',
          display:
            'Asked for only where the record says that the line has no clamps of its own (Device property clamp): reading every line that says nothing of it so would ask for clamps on lines that have them.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.clamp = 'none'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#clamp-work',
    },
  ],
};
