// Made from plans/repair-care.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'repair-care',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'repair-work',
      title: 'Repair the line',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'repair',
            display: 'Repair',
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
            expression: "'Keep the clamp between the damage and the body until the lumen is locked.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'See that a repair is allowed: who may do it by the device’s instructions and local policy, the maker’s kit for this device and this lumen size, at least 4 cm intact outside the skin, no clot in the lumen.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'One of these is not so: leave the clamp on; the responsible clinician decides on a replacement.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Sterile field, sterile gloves and mask. Cleanse the segment for 2 minutes and let it dry.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Cut the damaged part off square, with the kit’s own blade, and leave enough for the clamp.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Join the new segment as the kit’s instructions say, with 1 mL of its adhesive, and put on the splint.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Draw back the air in the new segment until blood fills it; never push air towards the patient.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Then lock with ' & %calculated.lockVolume & ', and clamp.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Label the line: not for infusion for 2 hours, splint off after 48 hours.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Chart the repair with its time and its lumen, the kit with its lot, the new external length and the new length of the catheter.'",
          },
        },
        {
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression: "'the maker’s repair kit for this device and size'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamp without teeth'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile drape, gloves and mask'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic for the catheter'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 % for flushing'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'lock solution'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'splint and tape'" } },
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
            expression: "'The times and lengths of the repair kit’s instructions come before these.'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'No scissors near the line.'" },
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
              "'Studies disagree on whether a repair raises the risk of infection: weigh it against a new line.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'splint-work',
      title: 'Take the splint off',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'splint-removal',
            display: 'Splint removal',
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
          expression: { language: 'text/fhirpath', expression: "'No scissors near the line.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at the joint under the splint: leak, bulge or gap: clamp between it and the body and tell the responsible clinician.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'patency-work',
      title: 'Test the repaired line',
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
            expression:
              "'See that the waiting time of the repair kit’s instructions is over and that the joint is dry and straight.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Draw back: air in the new segment comes out before anything goes in, until blood fills it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %, in pulses, never by force; look at the joint for a leak or a bulge.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Then lock as prescribed, and clamp.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart blood return and resistance, and whether the line may be used.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 % for flushing'" },
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
          expression: {
            language: 'text/fhirpath',
            expression: "'Not before the time that the repair kit’s instructions give for the adhesive.'",
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
            expression: "'Stop on resistance or a leak: do not force; clamp between the leak and the body.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/repair-care',
  version: '0.1.0',
  name: 'RepairCare',
  title: 'Damage to a line, its repair, and care after it',
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
    'A layer over the base for lines that are damaged or were repaired: what is damaged, a lumen or the whole line, is not used until it is repaired, the repair is asked for at once with its steps, nothing is infused for 2 hours after it, then the line is tested, and the splint comes off after 48 hours. Common practice, no source: the instructions of the device and of its repair kit come first.',
  action: [
    {
      id: 'repair',
      title: 'Repair of the line',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'repair',
              display: 'Repair',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: 4 cm intact outside the skin, 2 minutes of cleansing, 1 mL of adhesive; air drawn back until blood fills the new segment, then flush and lock. The repair is the event that the rules below count from.',
        },
        {
          type: 'documentation',
          display:
            'A kit made for the device and of the right size, enough catheter outside the skin, a waiting time from minutes to a day: instructions of makers (from memory, to be checked). No clot in the lumen before a permanent repair: JAVA 25(2):40 (seen).',
        },
      ],
      definitionCanonical: '#repair-work',
    },
    {
      id: 'repair-after-damage',
      title: 'Repair a damaged line, or have it replaced',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'repair',
              display: 'Repair',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a damaged line is repaired as soon as it can be; whether it can be is judged first, else the responsible clinician decides on a replacement.',
        },
        { type: 'documentation', display: 'Done by a repair on record; a removal closes it.' },
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#repair-work',
    },
    {
      id: 'repair-after-damage-lumen',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Repair a damaged lumen, or have the line replaced',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'repair',
              display: 'Repair',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a damaged line is repaired as soon as it can be; whether it can be is judged first, else the responsible clinician decides on a replacement.',
        },
        {
          type: 'documentation',
          display: 'Done by a repair on record that names this lumen; a removal closes it.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#repair-work',
    },
    {
      id: 'infusion-start-while-damaged',
      title: 'No infusion until the damage is repaired',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infusion-start',
              display: 'Infusion start',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).',
        },
        {
          type: 'documentation',
          display:
            'Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'repair', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'flush-while-damaged',
      title: 'No flush until the damage is repaired',
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
            'Common practice, no source: what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).',
        },
        {
          type: 'documentation',
          display:
            'Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'repair', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'lock-while-damaged',
      title: 'No lock until the damage is repaired',
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
          label: 'Common practice',
          citation:
            'Common practice, no source: what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).',
        },
        {
          type: 'documentation',
          display:
            'Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'repair', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'blood-sampling-while-damaged',
      title: 'No blood drawn until the damage is repaired',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'blood-sampling',
              display: 'Blood sampling',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).',
        },
        {
          type: 'documentation',
          display:
            'Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'repair', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'patency-assessment-while-damaged',
      title: 'No test until the damage is repaired',
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
            'Common practice, no source: what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).',
        },
        {
          type: 'documentation',
          display:
            'Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'repair', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'occlusion-treatment-while-damaged',
      title: 'No drug for a blockage until the damage is repaired',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'occlusion-treatment',
              display: 'Occlusion treatment',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: what is damaged is clamped and not used until it is repaired or replaced. Home sheet of a US hospital: the clamp is between the damage and the body (seen).',
        },
        {
          type: 'documentation',
          display:
            'Of the damaged lumen where the finding names one: the others stay in use. Of the whole line where it names none; chart damage before the lumens part on the line. It ends with a repair of the same: of a lumen with one that names it, of the line with one of the line or of each of its lumens.',
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
                      code: 'damage',
                      display: 'Damage',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'repair', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'infusion-start-after-repair',
      title: 'No infusion straight after a repair',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infusion-start',
              display: 'Infusion start',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: no infusion for 2 hours after a repair, so that the adhesive can set.',
        },
        {
          type: 'documentation',
          display:
            'Instructions of repair kits differ, from minutes to a day: where they give a longer time, it comes first.',
        },
      ],
      relatedAction: [
        {
          actionId: 'repair',
          relationship: 'after-end',
          offsetDuration: { value: 2, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      requiredBehavior: 'could',
    },
    {
      id: 'patency-assessment-after-repair',
      title: 'Test the line after a repair',
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
            'Common practice, no source: test flow and blood return when the waiting time after a repair is over, before the line is used.',
        },
      ],
      relatedAction: [
        {
          actionId: 'repair',
          relationship: 'after-end',
          offsetDuration: { value: 2, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#patency-work',
    },
    {
      id: 'splint-removal-after-repair',
      title: 'Take the splint off a repaired segment',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'splint-removal',
              display: 'Splint removal',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation: 'Common practice, no source: the splint of a repaired segment comes off after 48 hours.',
        },
        {
          type: 'documentation',
          display: 'Where the instructions of the repair kit give another time, they come first.',
        },
      ],
      relatedAction: [
        {
          actionId: 'repair',
          relationship: 'after-end',
          offsetDuration: { value: 48, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#splint-work',
    },
  ],
};
