// Made from plans/blood-sampling.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'blood-sampling',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'blood-sampling-work',
      title: 'Draw blood through the line',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'blood-sampling',
            display: 'Blood sampling',
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
            expression: "'Check the patient’s name, the order and the tubes at the bedside.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Stop what runs: ' & %calculated.infusingLumens & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Clamp every lumen. Clamps are on before any cap comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Scrub the connector and let it dry; for a blood culture put on a new connector first.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Flush the lumen with at least ' & %calculated.flushVolume & ' of sodium chloride 0.9 % and see that it runs free. Of a dialysis catheter draw off the lock and throw it away before this flush: never flush it in.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Draw back and discard ' & %calculated.discardVolume & '. Clamp before the syringe comes off.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Fill the tubes in this order: ' & %calculated.tubes & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Flush the lumen with sodium chloride 0.9 %: at least ' & %calculated.flushVolume & ', more by local policy.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Irrigate and clamp ' & %calculated.idleLumens & '.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Lock the lumen with ' & %calculated.lockVolume & ', or connect the infusion again; start again what was stopped.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Clamps closed, caps on; label the tubes at the bedside; chart the volume drawn and discarded.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'tubes by the order'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringes'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 % for flushing'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pads for the connector'" },
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
              "'Discard, common practice, no source: 6 mL. Published: 3 to 6 mL or 2 × dead space, 6 × for coagulation (RNAO), 5 to 10 mL (Royal Marsden Manual).'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Saline after the draw, common practice, no source: 3 mL. Published: 10 to 20 mL (INS, MASCC; from memory).'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'What is discarded counts as blood loss.'" },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/blood-sampling',
  version: '0.1.0',
  name: 'BloodSampling',
  title: 'Blood draws through the line',
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
    'A layer over the base: the steps of a blood draw with their volumes. The flush and the lock that follow a draw stand in the base. Values of common practice stand beside the published ones; local policy says which count.',
  action: [
    {
      id: 'blood-sampling',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Blood draw through the line',
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
          label: 'Published and common practice',
          citation:
            'Common practice, no source: 6 mL discarded before, 3 mL saline after, clamps on before any cap comes off, both lumens of a two-lumen line irrigated and clamped. RNAO, node 805: discard 3 to 6 mL or 2 × dead space, 6 × for coagulation (seen). Royal Marsden Manual, chapter 13: 5 to 10 mL (seen).',
          url: 'https://bpgmobile.rnao.ca/node/805',
        },
        {
          type: 'documentation',
          display:
            'Order of draw: CLSI GP41 (from memory). A coagulation sample: flush 5 mL, then discard 5 mL or 6 × dead space: CLSI H21-A5 (from memory). A new connector before a blood culture: INS, IDSA (from memory).',
        },
      ],
      definitionCanonical: '#blood-sampling-work',
    },
  ],
};
