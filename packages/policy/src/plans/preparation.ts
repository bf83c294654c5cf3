// Made from plans/preparation.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'preparation',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'teaching-work',
      title: 'Explain the line before it goes in',
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Ask what the patient and the family know already, and what worries them.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Explain what the line is for, where it will lie, how it is put in, how long it may stay, and what else could be done.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Show how it is lived with: keep it dry, loop and tape it, no scissors near it, who touches it and how hands are cleaned.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Name what is reported at once: fever or shivers, bleeding, redness, swelling of arm or neck, a wet dressing, a leak, breathlessness.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Let the patient tell it back, answer the questions, and note who is to be told and in which language.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'written sheet in the patient’s language'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'model or picture of the line'" },
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
            expression: "'Consent is taken by the one who puts the line in.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'wash-work',
      title: 'Wash with an antiseptic the evening before',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'bath',
            display: 'Antiseptic bath',
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
              "'Ask for allergies to the antiseptic, and look at the skin where the line is to go.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Wash the whole body from the neck down, skin folds and navel too, with the antiseptic that local policy names; leave it on for as long as its instructions say.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Do not shave; clip hair only where it is in the way, on the day.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Dry with a clean towel; put on clean clothes and clean sheets; no cream or powder on the chest, the neck or the arm.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic wash as local policy names it'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'clean towel'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clean clothes and sheets'" },
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
              "'No chlorhexidine wash below two months of age (SHEA 2022; from memory), and none on broken skin.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Keep the antiseptic away from eyes, ears and mouth.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'laboratory-work',
      title: 'Look at the baseline results',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'laboratory-review',
            display: 'Laboratory review',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Look up platelets and INR: value, unit, and when the sample was taken.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Where one is missing or older than the policy allows, ask the one who puts the line in whether it is wanted, and take the sample now.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Platelets below 20 10*9/L or an INR above 2.0: tell the one who puts the line in, now, not at the bedside.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Ask for drugs that thin the blood and for bleeding in the past, and note them.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Write down who was told, and what was decided.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sampling set, if a result is missing'" },
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
              "'Limits differ with the procedure and the patient: the one who puts the line in decides.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'A result that can’t be read counts as missing.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'ready-work',
      title: 'Get patient, papers and supplies ready',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'insertion-preparation',
            display: 'Insertion preparation',
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
              "'Check name and date of birth against the wristband and the request; consent is signed, or it is noted why not.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Ask for allergies: skin antiseptic, local anaesthetic, heparin, latex, adhesive.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Ask for earlier lines and clots, for a pacemaker, and for vessels to be spared; no blood pressure and no needle on the arm that is chosen.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Lay out full barrier: cap, mask, sterile gown and gloves, a drape for the whole body.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Lay out the line with a second one in reach, connectors, and clamps for a line that has none of its own.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Fill the flush syringes, none smaller than 10 mL, and label them.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'See that the tip can be confirmed afterwards, and that somebody watches the patient during the insertion.'",
          },
        },
        {
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression: "'cap, mask, sterile gown and gloves, whole-body drape'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'line, and a second one in reach'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'needleless connector for every lumen'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamps for a line without its own'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 %'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sterile dressing set'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'securement device'" },
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
            expression: "'Whoever sees asepsis broken stops the procedure.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'skin-work',
      title: 'Prepare the skin',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'skin-preparation',
            display: 'Skin preparation',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Wash visible dirt off with soap and water, and dry the skin.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Clip hair that is in the way; never shave.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Clean the skin with chlorhexidine above 0.5 % in alcohol, or with what local policy names; back and forth, with friction.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Contact time: chlorhexidine in alcohol at least 30 seconds, povidone-iodine at least 2 minutes, or as its instructions say if longer.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Let it dry by itself: no blotting, no fanning. Then do not touch the skin again.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'skin antiseptic as local policy names it'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile swabs'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clipper with a single-use head'" },
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
              "'Chlorhexidine with care in premature infants and below two months: local policy decides.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Alcohol burns: it must be dry, and none may have pooled, before diathermy is used.'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/preparation',
  version: '0.1.0',
  name: 'Preparation',
  title: 'What is done before a planned insertion',
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
    'A layer over the base for units that prepare patients for a line: counted back from the planned insertion are the teaching, the look at platelets and INR, the antiseptic wash of the evening before, the supplies, and the skin. The limits of the laboratory are published; the times are common practice, no source.',
  action: [
    {
      id: 'planned-insertion',
      title: 'Put the line in',
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
          label: 'Common practice',
          citation: 'Common practice, no source: the insertion that the preparation is counted back from.',
        },
      ],
    },
    {
      id: 'teaching-before-insertion',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 14, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' },
        },
      ],
      title: 'Explain the line before it goes in',
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
          label: 'Common practice',
          citation:
            'Common practice, no source: patient and family are told what is to come a day before at the latest, and have time to ask.',
        },
      ],
      relatedAction: [
        {
          actionId: 'planned-insertion',
          relationship: 'before-start',
          offsetDuration: { value: 24, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#teaching-work',
    },
    {
      id: 'laboratory-review-before-insertion',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 6, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' },
        },
      ],
      title: 'Look at platelets and INR before the insertion',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'laboratory-review',
              display: 'Laboratory review',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'SIR 2019',
          citation:
            'Society of Interventional Radiology 2019, consensus guidelines for thrombotic and bleeding risk, part II, procedures of low bleeding risk (tunneled and non-tunneled central lines and ports among them): platelets below 20 10*9/L are to be thought of for transfusion, an INR is to be brought to 2.0 to 3.0 or less; screening is not routine without a risk of bleeding. Read in a summary',
          url: 'https://reference.medscape.com/viewarticle/917397',
        },
        {
          type: 'citation',
          label: 'Common practice',
          citation: 'Common practice, no source: baseline results are looked at a day before at the latest.',
        },
      ],
      relatedAction: [
        {
          actionId: 'planned-insertion',
          relationship: 'before-start',
          offsetDuration: { value: 24, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#laboratory-work',
    },
    {
      id: 'laboratory-review-limits',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 5, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' },
        },
      ],
      title: 'Act on low platelets, a high INR, or results that are missing',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'laboratory-review',
              display: 'Laboratory review',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'SIR 2019',
          citation:
            'Society of Interventional Radiology 2019, consensus guidelines for thrombotic and bleeding risk, part II, procedures of low bleeding risk (tunneled and non-tunneled central lines and ports among them): platelets below 20 10*9/L are to be thought of for transfusion, an INR is to be brought to 2.0 to 3.0 or less; screening is not routine without a risk of bleeding. Read in a summary',
          url: 'https://reference.medscape.com/viewarticle/917397',
        },
        {
          type: 'justification',
          display:
            'A missing, stale or unreadable result counts as one beyond the limit, so that somebody asks for it in time. SIR 2012 gave 50 10*9/L for platelets (from memory): a unit that keeps it lays its own rule over this one.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%labs.platelets < 20 '10*9/L' or %labs.inr > 2 '1'",
          },
        },
      ],
      relatedAction: [
        {
          actionId: 'planned-insertion',
          relationship: 'before-start',
          offsetDuration: { value: 48, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#laboratory-work',
    },
    {
      id: 'bath-evening-before-insertion',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 4, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      title: 'Antiseptic wash the evening before the insertion',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'bath',
              display: 'Antiseptic bath',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: an antiseptic wash the evening before; here the last 20:00 that is six hours or more before.',
        },
      ],
      relatedAction: [
        {
          actionId: 'planned-insertion',
          relationship: 'before-start',
          offsetDuration: { value: 6, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      timingTiming: { repeat: { timeOfDay: ['20:00:00'] } },
      definitionCanonical: '#wash-work',
    },
    {
      id: 'insertion-preparation',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 3, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      title: 'Get patient, papers and supplies ready',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'insertion-preparation',
              display: 'Insertion preparation',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections: maximal sterile barrier precautions for the insertion of a central line (category IB); from memory',
        },
        {
          type: 'citation',
          label: 'Common practice',
          citation: 'Common practice, no source: everything lies ready an hour before.',
        },
      ],
      relatedAction: [
        {
          actionId: 'planned-insertion',
          relationship: 'before-start',
          offsetDuration: { value: 1, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#ready-work',
    },
    {
      id: 'skin-preparation',
      extension: [
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-lead',
          valueDuration: { value: 1, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      title: 'Prepare the skin',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'skin-preparation',
              display: 'Skin preparation',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, skin preparation: more than 0.5 % chlorhexidine in alcohol before a central line is put in (category IA); the antiseptic dries as its maker says (category IB); from memory',
        },
        {
          type: 'citation',
          label: 'INS 2021',
          citation:
            'INS 2021, drying and contact times of antiseptics: chlorhexidine in alcohol about 20 to 30 seconds, povidone-iodine 1.5 to 2 minutes or more; the longer is taken; from memory, to be checked',
        },
      ],
      relatedAction: [
        {
          actionId: 'planned-insertion',
          relationship: 'before-start',
          offsetDuration: { value: 0, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#skin-work',
    },
  ],
};
