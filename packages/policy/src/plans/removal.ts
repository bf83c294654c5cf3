// Made from plans/removal.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'removal',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'removal-work',
      title: 'Take the line out',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'removal',
            display: 'Removal',
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
              "'Check the order, who the patient is and which line it is; ask whether anything still has to go through it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Stop every infusion and clamp every lumen.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at the platelets and the INR of today; low platelets, a high INR or none on record: ask the responsible clinician first.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Lay the patient flat or head down.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Take off dressing, stitches and securement; no scissors near the line.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Draw the line out steadily while the patient bears down (Valsalva) or breathes out.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Never pull against resistance: stop, secure the line, cover the site and call the responsible clinician.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Press on the exit site and on the place where the line enters the vein until the bleeding has stopped, at least 5 minutes; longer with low platelets.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Put on an air-tight dressing at once; it stays on for at least 24 hours.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Flat for 30 minutes.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look whether the line is whole before it is thrown away. On record: ' & %calculated.lengthOnRecord & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Do not send the tip for culture unless an infection of the line is suspected.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Chart the removal with its time.'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'air-occlusive dressing'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gauze'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamp without teeth'" },
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
            expression: "'Removal and replacement are the decision of the responsible clinician.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'A cuffed line and a port are taken out only by whom local policy names.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Short of breath, chest pain or pale: take it for air in the vein and start with those first steps.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'removed-catheter-work',
      title: 'Look whether the line is whole',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'removed-catheter-check',
            display: 'Removed catheter check',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Keep the line until it is judged; lay it out straight beside a ruler.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at the tip and along the whole length, cuff included: ragged end, gap, tear, missing piece.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Measure the whole length. On record: ' & %calculated.lengthOnRecord & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'More than 1 cm shorter than it should be, or the tip is not as it was made: take it for incomplete, and start with those first steps.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart the finding: whole or incomplete, with the length in cm.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
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
              "'What was cut off at the insertion or at a repair is to be taken off the length that the maker gives.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'retained-catheter-work',
      title: 'First steps when a piece of the line has stayed in the body',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'retained-catheter-response',
            display: 'Retained catheter response',
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
              "'Keep the limb still and the patient lying; nobody feels for the piece or pulls at it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Dress the site: air-tight dressing, no pressure that moves the piece.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Call for urgent help and the responsible clinician now; imaging is theirs to order.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Short of breath, chest pain, palpitations: emergency call, and watch the heart rhythm.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'A piece that can still be seen outside the skin: hold it with a clamp, do not cut it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Keep what came out, measure it, and write down how much is missing. On record: ' & %calculated.lengthOnRecord & '.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Chart the time and what was done.'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'air-occlusive dressing'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'splint for the limb'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamp without teeth'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'bag for the removed part'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Local policy, the instructions of the device and of each drug, and the responsible clinician come first.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'getting-up-work',
      title: 'Let the patient up',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'getting-up',
            display: 'Getting up after a removal',
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
              "'Look at the dressing and the site before the patient sits up: bleeding, swelling, air-tight on all sides.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Bleeds: press again, and flat for another while.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Breathing easy, no chest pain, no dizziness: let the patient sit up, then stand.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Tell the patient: the dressing stays on and dry for at least 24 hours; call at once for bleeding, swelling or breathlessness.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gauze'" } },
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
              "'Short of breath, chest pain or pale: flat again, and first steps for air in the vein.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'air-tight-again-work',
      title: 'Make the dressing of a removed line air-tight again',
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
            expression: "'Lay the patient flat before anything is lifted.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Soaked with blood: press on it with sterile gauze and start with the first steps of bleeding.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Loosened or damp at the edge: put a new air-tight dressing over it; do not take the old one off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Wet through or soiled at the site: sterile gauze and a new air-tight dressing ready, the patient breathes out, then put it in its place at once.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Leave it on until 24 hours after the removal have passed, and chart the change with its time.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'air-occlusive dressing'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gauze'" } },
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
              "'Short of breath, chest pain or pale: take it for air in the vein and start with those first steps.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/removal',
  version: '0.1.0',
  name: 'Removal',
  title: 'The removal of a line and what follows it',
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
    'A layer over the base for units that take lines out: the steps of a removal on every item that asks for one, the check at once whether the line is whole, first steps when a piece has stayed in the body, and the rest of 30 minutes after which the site is looked at. A dressing that is damp, loosened or soiled by then is made air-tight again. The check after 24 hours stands in the base.',
  action: [
    {
      id: 'removal',
      title: 'Removal of the line',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'removal',
              display: 'Removal',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2021, Infusion Therapy Standards of Practice: the removal is the event that the checks below follow; flat for 30 minutes, air-occlusive dressing for at least 24 hours; from memory',
        },
        {
          type: 'citation',
          label: 'NCHD survival guide',
          citation:
            'NCHD survival guide: removal flat or head down, with Valsalva or breathing out, air-tight dressing at once; never pull against resistance (seen).',
        },
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009 (A-II): the tip is sent for culture only where the line is removed for a suspected infection of it (seen)',
        },
        {
          type: 'documentation',
          display:
            'Pressure for at least 5 minutes on exit site and vein, longer with low platelets; infusions stopped and lumens clamped first; platelets and INR looked at: common practice, no source.',
        },
      ],
      definitionCanonical: '#removal-work',
    },
    {
      id: 'insertion-without-asepsis',
      title: 'Insertion of the line',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'insertion',
              display: 'Insertion',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, (category IB): the insertion is the event that the 48 hours count from; from memory',
        },
      ],
    },
    {
      id: 'removal-after-insertion-without-asepsis',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Replace a line that was put in without full asepsis',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'removal',
              display: 'Removal',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, (category IB): where asepsis could not be assured, as at an emergency insertion, replace the catheter as soon as possible, within 48 hours; from memory',
        },
        {
          type: 'justification',
          display:
            'Asked for only where the record says that full asepsis was not kept (finding aseptic-insertion): reading every insertion that says nothing of it as septic would ask for the removal of every line.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.asepticInsertion.not()' },
        },
      ],
      relatedAction: [
        {
          actionId: 'insertion-without-asepsis',
          relationship: 'after-end',
          offsetDuration: { value: 48, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#removal-work',
    },
    {
      id: 'removed-catheter-check',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      title: 'Look whether a line that was taken out is whole',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'removed-catheter-check',
              display: 'Removed catheter check',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2021, Infusion Therapy Standards of Practice: length and integrity of the tip are recorded at the removal; from memory',
        },
        {
          type: 'documentation',
          display:
            'That a line more than 1 cm shorter than on record counts as incomplete is common practice, no source. A finding that gives a length and says neither whole nor incomplete is read so.',
        },
        {
          type: 'documentation',
          display:
            'Asked for until seven days after the day of the removal: a check that was not charted by then can hardly be made any more. That bound is a reading, not a published value.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%line.removedDays.exists() and %line.removedDays <= 7',
          },
        },
      ],
      output: [
        {
          type: 'Observation',
          codeFilter: [
            {
              path: 'code',
              code: [
                {
                  system: 'https://dwellward.example/fhir/CodeSystem/line-finding',
                  code: 'removed-catheter',
                  display: 'Removed catheter',
                },
              ],
            },
            { path: 'value', code: [{ code: 'whole' }, { code: 'incomplete' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'removal',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#removed-catheter-work',
    },
    {
      id: 'retained-catheter-response',
      title: 'A piece of the line has stayed in the body: first steps',
      priority: 'stat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'retained-catheter-response',
              display: 'Retained catheter response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'NCHD survival guide',
          citation:
            'NCHD survival guide: a severed catheter that is wholly retained: keep the limb still, dress the site, urgent help (seen).',
        },
        {
          type: 'documentation',
          display: 'That nothing is pulled or cut and what came out is kept is common practice, no source.',
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
                      code: 'removed-catheter',
                      display: 'Removed catheter',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'incomplete' }] },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#retained-catheter-work',
    },
    {
      id: 'flat-after-removal',
      title: 'Flat after a removal',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'getting-up',
              display: 'Getting up after a removal',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2021, Infusion Therapy Standards of Practice: the patient stays flat for 30 minutes after the removal of a central line; from memory',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression:
              "%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')",
          },
        },
      ],
      relatedAction: [
        {
          actionId: 'removal',
          relationship: 'after-end',
          offsetDuration: { value: 30, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'could',
    },
    {
      id: 'getting-up-after-removal',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      title: 'Look at the site, then let the patient up',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'getting-up',
              display: 'Getting up after a removal',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2021, Infusion Therapy Standards of Practice: the patient stays flat for 30 minutes after the removal of a central line; from memory',
        },
        {
          type: 'documentation',
          display:
            'That the site is looked at before the patient gets up is common practice, no source. Asked for until the day after the removal.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression:
              "%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')",
          },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%line.removedDays.exists() and %line.removedDays <= 1',
          },
        },
      ],
      relatedAction: [
        {
          actionId: 'removal',
          relationship: 'after-end',
          offsetDuration: { value: 30, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#getting-up-work',
    },
    {
      id: 'dressing-change-after-removal',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title:
        'New air-tight dressing over or in place of one that is damp, loosened or soiled after a removal',
      priority: 'asap',
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
          label: 'INS',
          citation:
            'INS 2021, Infusion Therapy Standards of Practice: air-occlusive dressing on the site for at least 24 hours after the removal of a central line; from memory',
        },
        {
          type: 'citation',
          label: 'CDC 2011/2017',
          citation:
            'CDC-HICPAC 2011, dressing regimens, recommendation 3 (category IB), repeated in the 2017 update: replace the dressing if it becomes damp, loosened or visibly soiled',
        },
        {
          type: 'documentation',
          display:
            'That the two together mean a new air-tight dressing at once, over the old one where that holds, is common practice, no source. Asked for until the day after the removal: a reading, not a published value.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression:
              "%line.type in ('tunneled-cvc' | 'nontunneled-cvc' | 'picc' | 'tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')",
          },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%line.removedDays.exists() and %line.removedDays <= 1',
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
                      code: 'dressing-condition',
                      display: 'Dressing condition',
                    },
                  ],
                },
                {
                  path: 'value',
                  code: [
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/dressing-condition',
                      code: 'damp',
                      display: 'Damp',
                    },
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/dressing-condition',
                      code: 'loosened',
                      display: 'Loosened',
                    },
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/dressing-condition',
                      code: 'soiled',
                      display: 'Soiled',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#air-tight-again-work',
    },
  ],
};
