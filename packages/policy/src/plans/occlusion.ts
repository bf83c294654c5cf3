// Made from plans/occlusion.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'occlusion',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'occlusion-treatment-work',
      title: 'Treat a lumen that is blocked by a clot',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'occlusion-treatment',
            display: 'Occlusion treatment',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:thrombolytic-dose',
          expression: { language: 'text/fhirpath', expression: '%calculated.thrombolyticDose' },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Mechanical causes and a precipitate are ruled out, and the prescriber has ordered the treatment: else stop here.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Ask and tell the prescriber: allergy to the drug; internal bleeding now; in the last 48 hours surgery, delivery, biopsy of an organ or deep tissue, puncture of a vessel that can’t be pressed on; low platelets or another bleeding tendency, severe liver or kidney disease; risk of an embolism; infection in the line.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'The dose, for the prescriber to order: ' & %calculated.thrombolyticDose & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Reconstitute with 2.2 mL sterile water without preservative, swirl for at most 3 minutes, use within 8 hours; add nothing to it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Instil ' & %calculated.thrombolyticDose & ' into the lumen, without force.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Clamp and label the lumen: not to be used. Chart the treatment with its time: the clock for 30 and 120 minutes starts.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'alteplase as ordered'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile water without preservative'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'label for the lumen'" },
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
          expression: { language: 'text/fhirpath', expression: "'Allergy to the drug: not to be given.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'No vigorous suction and no pressure: the line can burst, the clot can be driven out.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Serious bleeding: stop, and withdraw the drug from the line.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'second-dose-work',
      title: 'The second and last dose for a lumen that is still blocked',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'occlusion-treatment',
            display: 'Occlusion treatment',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:thrombolytic-dose',
          expression: { language: 'text/fhirpath', expression: '%calculated.thrombolyticDose' },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'The look after 120 minutes found no brisk blood return, and the prescriber has ordered a second, equal dose: else stop here. It is the last one.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Ask and tell the prescriber: allergy to the drug; internal bleeding now; in the last 48 hours surgery, delivery, biopsy of an organ or deep tissue, puncture of a vessel that can’t be pressed on; low platelets or another bleeding tendency, severe liver or kidney disease; risk of an embolism; infection in the line.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'The dose, for the prescriber to order: ' & %calculated.thrombolyticDose & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Reconstitute with 2.2 mL sterile water without preservative, swirl for at most 3 minutes, use within 8 hours; add nothing to it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Instil ' & %calculated.thrombolyticDose & ' into the lumen, without force.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Clamp and label the lumen: not to be used. Chart the treatment with its time: the clock for 30 and 120 minutes starts again.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'alteplase as ordered'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile water without preservative'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'label for the lumen'" },
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
          expression: { language: 'text/fhirpath', expression: "'Allergy to the drug: not to be given.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'No vigorous suction and no pressure: the line can burst, the clot can be driven out.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Serious bleeding: stop, and withdraw the drug from the line.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'after-two-doses-work',
      title: 'A lumen that two doses did not open',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'blockage-response',
            display: 'Blockage response',
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
              "'Two doses were given: no third by the label (4 mg in all). Ask the responsible clinician for imaging or another line.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Keep the lumen clamped and labelled: not to be used. Force nothing in.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'See to it that what has to be given has another way: ask which lumen or line.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart who was told, and what was decided.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'label for the lumen'" },
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
      id: 'dwell-30-work',
      title: 'First look after 30 minutes',
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
            expression: "'After 30 minutes try gently to draw blood.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Blood returns: withdraw and discard ' & %calculated.thrombolyticWithdrawal & ', then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %. Chart brisk blood return: the clock ends.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'No blood returns: leave the drug in, clamp, and look again at 120 minutes. Chart what was found.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
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
            expression:
              "'No vigorous suction and no pressure: the line can burst, the clot can be driven out.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'dwell-120-work',
      title: 'Second look after 120 minutes',
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
            expression: "'After 120 minutes try gently to draw blood.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Blood returns: withdraw and discard ' & %calculated.thrombolyticWithdrawal & ', then flush with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 %. Chart brisk blood return.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'No blood returns, after the first dose: one second, equal dose may follow if the prescriber orders it. Chart it as a new treatment: the clock starts again.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'No blood returns, after the second dose: no further dose. Two doses and 4 mg in all are the most; call the prescriber.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart the outcome; the lumen stays out of use until it returns blood.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
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
            expression:
              "'No vigorous suction and no pressure: the line can burst, the clot can be driven out.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/occlusion',
  version: '0.1.0',
  name: 'Occlusion',
  title: 'Treatment of a blocked lumen',
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
    'A layer over the base, to lie over the layer trouble: the dose, the looks after 30 and 120 minutes, the second dose and what must wait meanwhile. It asks for a prescriber’s decision and orders nothing; the drug’s own label and local policy come first.',
  action: [
    {
      id: 'blockage-response-done',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'First steps at a blocked lumen',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'blockage-response',
              display: 'Blockage response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: the first steps are the event that the treatment counts from.',
        },
      ],
    },
    {
      id: 'occlusion-treatment',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Ask about treating a lumen that is still blocked',
      priority: 'urgent',
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
          label: 'US label of alteplase for catheter occlusion and UK text',
          citation:
            'US label of alteplase for catheter occlusion and UK SmPC (emc 4617): 30 kg and more 2 mg in 2 mL; below 30 kg 110 % of the lumen’s internal volume at 1 mg/mL, at most 2 mg (seen). Contraindication and cautions: US label (seen, reported).',
        },
        {
          type: 'documentation',
          display:
            'Only after mechanical causes and a precipitate were looked for (US label, reported). A dose for each lumen of a dialysis catheter is off-label. It is a prescriber’s decision: this Task asks for it and does not order it.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven < 1' },
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'blockage-response-done',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#occlusion-treatment-work',
    },
    {
      id: 'occlusion-treatment-given',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Treatment of a blocked lumen',
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
          citation: 'Common practice, no source: the instillation is the event that the clock counts from.',
        },
      ],
    },
    {
      id: 'occlusion-treatment-second',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Ask about the second and last dose for a lumen that is still blocked',
      priority: 'urgent',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: where it does not work after 120 minutes, a second, equal dose is allowed (seen).',
        },
        {
          type: 'documentation',
          display:
            'Straight after that look, without the first steps anew: they were done before the first dose. It is a prescriber’s decision: this Task asks for it and does not order it.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven = 1' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%lumen.lookMinutesAfterDose.exists() and %lumen.lookMinutesAfterDose >= 120',
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
                      code: 'blood-return',
                      display: 'Blood return',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'sluggish' }, { code: 'none' }] },
              ],
            },
          ],
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      definitionCanonical: '#second-dose-work',
    },
    {
      id: 'occlusion-treatment-second-resistance',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Ask about the second and last dose for a lumen that is still blocked',
      priority: 'urgent',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: where it does not work after 120 minutes, a second, equal dose is allowed (seen).',
        },
        {
          type: 'documentation',
          display:
            'Straight after that look, without the first steps anew: they were done before the first dose. It is a prescriber’s decision: this Task asks for it and does not order it.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven = 1' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%lumen.lookMinutesAfterDose.exists() and %lumen.lookMinutesAfterDose >= 120',
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
                      code: 'flush-resistance',
                      display: 'Flush resistance',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'some' }, { code: 'blocked' }] },
              ],
            },
          ],
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
        {
          type: 'Observation',
          codeFilter: [
            {
              path: 'code',
              code: [
                {
                  system: 'https://dwellward.example/fhir/CodeSystem/line-finding',
                  code: 'flush-resistance',
                  display: 'Flush resistance',
                },
              ],
            },
            { path: 'value', code: [{ code: 'none' }] },
          ],
        },
      ],
      definitionCanonical: '#second-dose-work',
    },
    {
      id: 'blockage-response-after-two-doses',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title:
        'Two doses were given: no third by the label (4 mg in all). Ask the responsible clinician for imaging or another line',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'blockage-response',
              display: 'Blockage response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: no data above 2 mg a dose or 4 mg in all, two doses (seen).',
        },
        {
          type: 'documentation',
          display: 'Imaging or another line is the clinician’s decision: common practice, no source.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven >= 2' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%lumen.lookMinutesAfterDose.exists() and %lumen.lookMinutesAfterDose >= 120',
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
                      code: 'blood-return',
                      display: 'Blood return',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'sluggish' }, { code: 'none' }] },
              ],
            },
          ],
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      definitionCanonical: '#after-two-doses-work',
    },
    {
      id: 'blockage-response-after-two-doses-resistance',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title:
        'Two doses were given: no third by the label (4 mg in all). Ask the responsible clinician for imaging or another line',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'blockage-response',
              display: 'Blockage response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: no data above 2 mg a dose or 4 mg in all, two doses (seen).',
        },
        {
          type: 'documentation',
          display: 'Imaging or another line is the clinician’s decision: common practice, no source.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven >= 2' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%lumen.lookMinutesAfterDose.exists() and %lumen.lookMinutesAfterDose >= 120',
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
                      code: 'flush-resistance',
                      display: 'Flush resistance',
                    },
                  ],
                },
                { path: 'value', code: [{ code: 'some' }, { code: 'blocked' }] },
              ],
            },
          ],
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
        {
          type: 'Observation',
          codeFilter: [
            {
              path: 'code',
              code: [
                {
                  system: 'https://dwellward.example/fhir/CodeSystem/line-finding',
                  code: 'flush-resistance',
                  display: 'Flush resistance',
                },
              ],
            },
            { path: 'value', code: [{ code: 'none' }] },
          ],
        },
      ],
      definitionCanonical: '#after-two-doses-work',
    },
    {
      id: 'patency-assessment-dwell-30-minutes',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      title: 'Look whether the lumen works, 30 minutes after the drug',
      priority: 'urgent',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: assess function after 30 minutes, and where it does not work again after 120 minutes (seen). US dosing card: once it works, withdraw and discard 4 to 5 mL, below 10 kg 3 mL, then flush with saline (seen).',
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'occlusion-treatment-given',
          relationship: 'after-end',
          offsetDuration: { value: 30, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#dwell-30-work',
    },
    {
      id: 'patency-assessment-dwell-120-minutes',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      title: 'Look whether the lumen works, 120 minutes after the drug',
      priority: 'urgent',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: where it does not work after 30 minutes, after 120 minutes; a second, equal dose is allowed then; no data above 2 mg a dose or 4 mg in all (seen).',
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'occlusion-treatment-given',
          relationship: 'after-end',
          offsetDuration: { value: 120, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#dwell-120-work',
    },
    {
      id: 'flush-during-dwell',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'No flush while the drug is in the lumen',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: the drug stays in the lumen for up to 120 minutes (seen). That nothing else goes into the lumen meanwhile is common practice, no source.',
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'occlusion-treatment-given',
          relationship: 'after-end',
          offsetDuration: { value: 120, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'could',
    },
    {
      id: 'lock-during-dwell',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'No lock while the drug is in the lumen',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: the drug stays in the lumen for up to 120 minutes (seen). That nothing else goes into the lumen meanwhile is common practice, no source.',
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'occlusion-treatment-given',
          relationship: 'after-end',
          offsetDuration: { value: 120, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'could',
    },
    {
      id: 'infusion-start-during-dwell',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'No infusion while the drug is in the lumen',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: the drug stays in the lumen for up to 120 minutes (seen). That nothing else goes into the lumen meanwhile is common practice, no source.',
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'occlusion-treatment-given',
          relationship: 'after-end',
          offsetDuration: { value: 120, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'could',
    },
    {
      id: 'blood-sampling-during-dwell',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'No blood draw while the drug is in the lumen',
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
          label: 'US label of alteplase for catheter occlusion',
          citation:
            'US label of alteplase for catheter occlusion: the drug stays in the lumen for up to 120 minutes (seen). That nothing else goes into the lumen meanwhile is common practice, no source.',
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
                  code: 'blood-return',
                  display: 'Blood return',
                },
              ],
            },
            { path: 'value', code: [{ code: 'brisk' }] },
          ],
        },
      ],
      relatedAction: [
        {
          actionId: 'occlusion-treatment-given',
          relationship: 'after-end',
          offsetDuration: { value: 120, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'could',
    },
  ],
};
