// Made from plans/base.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'base',
  contained: [
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
      id: 'dressing-change-chlorhexidine-work',
      title: 'Change the chlorhexidine dressing',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'CDC 2017',
          citation:
            'CDC 2017, Recommendations on the Use of Chlorhexidine-Impregnated Dressings (update of the 2011 guidelines), recommendations 1.a (category IA), 2.a (category IC) and 2.b (unresolved): recommended from 18 years for short-term non-tunneled catheters, not recommended in premature neonates, no recommendation for the others below 18 years',
          url: 'https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/',
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
          expression: { language: 'text/fhirpath', expression: "'chlorhexidine dressing'" },
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
              "'Chlorhexidine dressings are not recommended in premature neonates (skin reactions); below 18 years the 2017 CDC update gives no recommendation.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Ask about chlorhexidine allergy; look at the skin under the dressing.'",
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
      id: 'set-work',
      title: 'Change the administration set',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'administration-set-change',
            display: 'Administration set change',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'administration set with its add-ons'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'antiseptic pad for the connector'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'label with date and time'" },
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
            expression: "'Clamp the lumen before disconnecting, so that no air gets in.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Drugs that must not pause: have the new set running ready before the change.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'flush-work',
      title: 'Flush the lumen',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: least flush volume is twice the internal volume of the catheter with its add-ons; from memory',
        },
        {
          type: 'citation',
          label: 'Syringe size',
          citation:
            'A dialysis catheter instruction leaflet: test patency with a barrel of 10 mL diameter or more, since smaller syringes build up more pressure.',
        },
      ],
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
            expression: "'Scrub the connector and let it dry before access.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'flush-after-use-work',
      title: 'Flush the lumen after it was used',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: least flush volume is twice the internal volume of the catheter with its add-ons; from memory',
        },
        {
          type: 'citation',
          label: 'Syringe size',
          citation:
            'A dialysis catheter instruction leaflet: test patency with a barrel of 10 mL diameter or more, since smaller syringes build up more pressure.',
        },
      ],
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
            expression: "'Scrub the connector and let it dry before access.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'After blood or a viscous infusion more than the least: 10 to 20 mL is published (INS, MASCC; from memory); 3 mL after a draw is common practice, no source.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'lock-work',
      title: 'Lock the lumen',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'Goossens 2015',
          citation:
            'Goossens 2015, Nursing Research and Practice 985686, table 4: lock volume is the internal volume and 20 %, with the add-on volume extra, only where the lock is harmless if it reaches the circulation.',
          url: 'https://www.hindawi.com/journals/nrp/2015/985686/tab4/',
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Flush the lumen first: a lock is no flush.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Then lock it with ' & %calculated.lockVolume & '.'",
          },
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
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Draw off the old lock that is still in the lumen and throw it away: it is never flushed in.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Then flush the lumen: a lock is no flush.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Then lock it with ' & %calculated.lockVolume & '.'",
          },
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
      id: 'length-work',
      title: 'Measure the external length',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'external-length-measurement',
            display: 'External length measurement',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression: "'measuring tape, clean and for one patient'",
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
              "'Changed since the insertion: do not use the line and do not push it back; ask for the tip to be confirmed.'",
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
    {
      resourceType: 'ActivityDefinition',
      id: 'needle-work',
      title: 'Change the port needle',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'access-needle-change',
            display: 'Access needle change',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'non-coring needle of the right length'" },
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
          expression: { language: 'text/fhirpath', expression: "'sodium chloride 0.9 % for flushing'" },
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
          expression: {
            language: 'text/fhirpath',
            expression: "'Confirm blood return before anything is given.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Pain, swelling or resistance: stop and tell the responsible clinician.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'bath-work',
      title: 'Wash with an antiseptic',
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
          path: 'input:supply',
          expression: {
            language: 'text/fhirpath',
            expression: "'chlorhexidine wash or cloths as local policy names them'",
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
            expression: "'Ask about chlorhexidine allergy; look at the skin.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Not the face, not open wounds, not below 2 months of age.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'securement-work',
      title: 'Change the securement device',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'securement-change',
            display: 'Securement change',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'adhesive securement device'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'skin antiseptic as local policy names it'" },
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
              "'Hold the catheter while the old device comes off; never push back what has slipped out.'",
          },
        },
        {
          path: 'input:caution',
          expression: { language: 'text/fhirpath', expression: "'Change it together with the dressing.'" },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'tip-work',
      title: 'Confirm where the tip lies',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'tip-confirmation',
            display: 'Tip confirmation',
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
            expression: "'Nothing is given through the line before the tip is confirmed.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'A clinician who may do so reads the image or the tracing.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'removal-work',
      title: 'Remove or replace the line',
      status: 'active',
      relatedArtifact: [
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009, clinical practice guidelines for intravascular catheter-related infection (A-II): culture of the tip only where it was removed for a suspected line infection',
        },
      ],
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
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'air-occlusive dressing'" },
        },
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
            expression: "'Removal and replacement are the decision of the responsible clinician.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Flat or head down, during expiration or Valsalva; never pull against resistance.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Stay flat for 30 min; note length and integrity of the tip (INS 2021, from memory).'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Send the tip for culture only where a line infection is suspected (IDSA 2009, A-II).'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'after-removal-work',
      title: 'Look at the site after the removal',
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
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gauze or plaster'" } },
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
            expression: "'The air-occlusive dressing stays on for at least 24 h.'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Bleeding, swelling, breathlessness or pus: tell the responsible clinician.'",
          },
        },
      ],
    },
  ],
  extension: [
    {
      url: 'https://dwellward.example/fhir/StructureDefinition/lab-stale-after',
      valueDuration: { value: 7, unit: 'days', system: 'http://unitsofmeasure.org', code: 'd' },
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/base',
  version: '0.1.0',
  name: 'Base',
  title: 'Published maintenance of vascular access lines',
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
    'Maintenance of every line type as published guidelines give it: confirmation of the tip, dressings, securement, connectors, administration sets, flush and lock, site, external length, need, antiseptic bath, port needle, care after removal. It advises; local policy, the instructions of device and drug, and licensed clinicians decide. Lay a policy of your own over it to choose other values.',
  purpose:
    'Where sources differ the newest graded guideline is taken and the others are named in the documentation of the rule. Values that were not read in their source are marked: from memory. Check those before use.',
  action: [
    {
      id: 'dressing-change-gauze',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Change a gauze dressing',
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
          label: 'SHEA/IDSA/APIC 2022',
          citation:
            'SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice, maintenance: gauze dressings of non-tunneled central venous catheters every 2 days; from memory',
        },
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, dressing regimens, recommendation 6 (category II): gauze dressings of short-term central venous catheter sites every 2 days; from memory',
        },
        {
          type: 'citation',
          label: 'INS 2021/2024',
          citation:
            'INS 2021 (standard 42) and 2024, Infusion Therapy Standards of Practice: gauze at least every 2 days, central and midline; gauze under a transparent dressing counts as gauze; from memory',
        },
        {
          type: 'citation',
          label: 'SHEA/IDSA 2008',
          citation: 'SHEA/IDSA 2008 compendium, (A-I): gauze every 2 days, sooner if soiled, loose or damp',
          url: 'https://eguideline.guidelinecentral.com/i/53995',
        },
        {
          type: 'documentation',
          display: 'A dressing that is not on record is read as gauze, the shortest interval.',
        },
        {
          type: 'documentation',
          display:
            'Other values: epic3 2014 allows gauze only while there is sweating, bleeding or leakage (from memory); INS 2021 changes dressings of neonates as clinically needed (from memory); gauze that only supports a port needle and leaves the site visible counts as transparent in INS 2016/2021 (from memory).',
        },
        {
          type: 'documentation',
          display:
            'Of an implanted port only while a needle is in: without one there is no exit site to cover and no connector to change.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.dressing = 'gauze-dressing'" },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type != 'implanted-port' or %line.accessed",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 2, periodUnit: 'd' } },
      definitionCanonical: '#dressing-change-work',
    },
    {
      id: 'dressing-change-transparent',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Change a transparent dressing',
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
          label: 'SHEA/IDSA/APIC 2022',
          citation:
            'SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice, maintenance: transparent dressings with site care at least every 7 days, at once if soiled, loose or damp; from memory',
        },
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, dressing regimens, recommendation 7 (category IB): transparent dressings of short-term central venous catheter sites at least every 7 days, except in children where the risk of dislodging the catheter outweighs the benefit; from memory',
        },
        {
          type: 'citation',
          label: 'INS 2021/2024',
          citation:
            'INS 2021 (standard 42) and 2024, Infusion Therapy Standards of Practice: transparent dressings at least every 7 days, central and midline; from memory',
        },
        {
          type: 'citation',
          label: 'French consensus 2020',
          citation:
            'French intensive care expert consensus 2020, table 2: transparent dressings every 7 days unless detached, soiled or bleeding',
          url: 'https://annalsofintensivecare.springeropen.com/articles/10.1186/s13613-020-00713-4/tables/2',
        },
        {
          type: 'documentation',
          display:
            'Other values: 5 to 7 days in SHEA/IDSA 2008 (A-I) and INS 2016 (from memory); as clinically needed in neonates in INS 2021 (from memory).',
        },
        {
          type: 'documentation',
          display:
            'CDC 2011 recommendation 8 (category II, from memory): dressings of tunneled or implanted catheters not more than once a week until the site has healed. That is a least spacing, not a maximum; a layer can state it with rule-minimum-spacing.',
        },
        {
          type: 'documentation',
          display:
            'Of an implanted port only while a needle is in: without one there is no exit site to cover and no connector to change.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.dressing = 'transparent-dressing'" },
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
      definitionCanonical: '#dressing-change-work',
    },
    {
      id: 'dressing-change-chlorhexidine',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Change a chlorhexidine dressing',
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
          label: 'SHEA/IDSA/APIC 2022',
          citation:
            'SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice: transparent dressings at least every 7 days; chlorhexidine-containing dressings for patients above 2 months; from memory',
        },
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, dressing regimens, recommendation 7 (category IB): transparent dressings at least every 7 days, read for those with chlorhexidine too; from memory',
        },
        {
          type: 'citation',
          label: 'CDC 2017',
          citation:
            'CDC 2017, Recommendations on the Use of Chlorhexidine-Impregnated Dressings (update of the 2011 guidelines), recommendation 1.a (category IA): chlorhexidine-impregnated dressings recommended from 18 years for short-term non-tunneled catheters; the update gives no interval of its own',
          url: 'https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/',
        },
        {
          type: 'documentation',
          display:
            'Sources differ on whom to use it for: CDC 2017 from 18 years, unresolved below, not in premature neonates; SHEA 2022 above 2 months (from memory). Which dressing to use is not decided here.',
        },
        {
          type: 'documentation',
          display:
            'Of an implanted port only while a needle is in: without one there is no exit site to cover and no connector to change.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.dressing = 'chlorhexidine-dressing'" },
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
      definitionCanonical: '#dressing-change-chlorhexidine-work',
    },
    {
      id: 'dressing-change-dialysis',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Change the dressing of a dialysis catheter',
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
          label: 'KHA-CARI',
          citation:
            'KHA-CARI guideline on dialysis catheters: long-term dialysis lines weekly, or sooner if soiled or not intact; transparent preferred, dry dressing while there is bleeding; from memory, read only in a secondary text',
        },
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, (category IB): ointment at the exit site of a dialysis catheter after insertion and at the end of each session, if the material allows it',
        },
        {
          type: 'documentation',
          display:
            'Other values: at each dialysis session where the unit opens the dressing for the ointment; the bundled layer dialysis asks for that. Gauze is changed every 2 days all the same.',
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
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#dressing-change-dialysis-work',
    },
    {
      id: 'dressing-change-at-once',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Change a damp, loosened or soiled dressing',
      priority: 'urgent',
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
          label: 'CDC 2011/2017',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, dressing regimens, recommendation 3 (category IB), repeated in the 2017 update: replace the dressing if it becomes damp, loosened or visibly soiled',
          url: 'https://www.cdc.gov/infectioncontrol/guidelines/bsi/c-i-dressings/',
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
      definitionCanonical: '#dressing-change-work',
    },
    {
      id: 'needleless-connector-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-minimum-spacing',
          valueDuration: { value: 96, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      title: 'Change the needleless connector',
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
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, needleless systems, recommendations 1 to 3 (category II): change needleless parts at least as often as the administration set, which is at least every 7 days; no benefit more often than every 72 hours; from memory',
        },
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: connectors not more often than every 96 hours; from memory',
        },
        {
          type: 'citation',
          label: 'NHS Ayrshire & Arran G004',
          citation:
            'NHS Ayrshire & Arran, guideline G004 (adult cancer care, Scotland): needle-free device weekly at line care, or when damaged, leaking or soiled',
        },
        {
          type: 'documentation',
          display:
            'Other values: least spacing 72 hours in CDC 2011, 96 hours in INS; 96 hours is taken, the newer one.',
        },
        {
          type: 'documentation',
          display:
            'Of an implanted port only while a needle is in: without one there is no exit site to cover and no connector to change.',
        },
      ],
      condition: [
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
      id: 'needleless-connector-change-at-once',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Change a connector with residue or contamination',
      priority: 'urgent',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: change the connector when blood or debris is seen in it, when it is contaminated and when it was taken off; from memory',
        },
        {
          type: 'citation',
          label: 'NHS Ayrshire & Arran G004',
          citation:
            'NHS Ayrshire & Arran, guideline G004 (adult cancer care, Scotland): when damaged, leaking or soiled',
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
                      code: 'connector-condition',
                      display: 'Connector condition',
                    },
                  ],
                },
                {
                  path: 'value',
                  code: [
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/connector-condition',
                      code: 'blood-residue',
                      display: 'Blood residue',
                    },
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/connector-condition',
                      code: 'debris',
                      display: 'Debris',
                    },
                    {
                      system: 'https://dwellward.example/fhir/CodeSystem/connector-condition',
                      code: 'contaminated',
                      display: 'Contaminated',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#connector-work',
    },
    {
      id: 'administration-set-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        {
          url: 'https://dwellward.example/fhir/StructureDefinition/rule-minimum-spacing',
          valueDuration: { value: 96, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      title: 'Change the administration set',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'SHEA/IDSA/APIC 2022',
          citation:
            'SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice: sets not used for blood, blood products or fat emulsion at intervals of up to 7 days; from memory, read only in a secondary text',
        },
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, administration sets, recommendation 1 (category IA): sets in continuous use, with secondary sets and add-ons, not more often than every 96 hours and at least every 7 days; from memory, read only in a secondary text',
        },
        {
          type: 'documentation',
          display:
            'Other values: not longer than 96 hours in SHEA/IDSA 2008 (A-II, superseded) and the French consensus 2020; not more often than 96 hours and no stated maximum in epic3 2014 (from memory); 72 hours in CDC 2002 (superseded).',
        },
        {
          type: 'documentation',
          display:
            'Sets in intermittent use, parenteral nutrition without fat and pressure monitoring have rules of their own below.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use = 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'administration-set-change-blood',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Change a set used for blood',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, administration sets, (category IB): sets used for blood or blood products within 24 hours of starting; from memory, read only in a secondary text',
        },
        {
          type: 'documentation',
          display: 'An infusion that is not known is read as blood, the shorter interval.',
        },
        {
          type: 'documentation',
          display:
            'Other values: with each unit or every 4 hours in INS (from memory); at the end of the episode or every 12 hours in epic3 2014 (from memory).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use = 'infusing'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.infusate = 'blood'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'administration-set-change-fat-emulsion',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Change a set used for fat emulsion',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, administration sets, (category IB): sets used for fat emulsion, alone or in a mixture, within 24 hours of starting; from memory, read only in a secondary text',
        },
        {
          type: 'citation',
          label: 'French consensus 2020',
          citation: 'French intensive care expert consensus 2020, table 2: 24 hours with lipid or blood',
          url: 'https://annalsofintensivecare.springeropen.com/articles/10.1186/s13613-020-00713-4/tables/2',
        },
        {
          type: 'documentation',
          display: 'An infusion that is not known is read as fat emulsion, the shorter interval.',
        },
        {
          type: 'documentation',
          display:
            'Other values: 12 hours and with each container in INS for fat emulsion alone, 24 hours and with each bag for mixtures (from memory); 24 hours in epic3 2014 (from memory).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use = 'infusing'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.infusate = 'fat-emulsion'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'administration-set-change-propofol',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change a set used for propofol',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, administration sets, (category IA): sets used for propofol every 6 or 12 hours, when the vial is changed, as its maker says; from memory, read only in a secondary text',
        },
        {
          type: 'justification',
          display:
            'An infusion that is not known is not read as propofol: propofol is given under continuous observation and is charted by name, and reading every unknown infusion as propofol would ask for two changes a day of every set. The 24 hours of blood and fat emulsion stand for it.',
        },
        {
          type: 'documentation',
          display: 'Where the drug’s own instructions say 6 hours or with each vial, they come first.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use = 'infusing'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.infusate = 'propofol'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 12, periodUnit: 'h' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'administration-set-change-intermittent',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change a set in intermittent use',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: administration sets in intermittent use every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display:
            'Other values: unresolved in CDC 2011 (recommendation 2; from memory, secondary): the bundled choice choice-intermittent-set-cdc-unresolved leaves it out.',
        },
        {
          type: 'justification',
          display:
            'A lumen is in intermittent use where the record shows that it was locked or disconnected between two infusions of the last 24 hours. Where it does not, the set is read as continuous: reading every set as intermittent would ask for a change a day of all of them.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.infusionPattern = 'intermittent'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'administration-set-change-parenteral-nutrition',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change a set used for parenteral nutrition without fat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2021 and 2024, Infusion Therapy Standards of Practice: sets used for parenteral nutrition, without fat or as a mixture with it, every 24 hours and with each new bag; from memory, read only in a secondary text',
        },
        {
          type: 'documentation',
          display:
            'Other values: no rule in CDC 2011; 96 hours in an older chart of the same publisher (from memory, secondary). With fat the 24 hours of CDC 2011 apply.',
        },
        {
          type: 'justification',
          display:
            'An infusion that is not known is read as blood and as fat emulsion already, with the same 24 hours.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use = 'infusing'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.infusate = 'parenteral-nutrition'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'administration-set-change-pressure-monitoring',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change the set of a pressure line',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'administration-set-change',
              display: 'Administration set change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: transducer and set of a pressure line every 96 hours; from memory',
        },
        {
          type: 'justification',
          display:
            'An infusion that is not known is read as blood and as fat emulsion already, with shorter intervals.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use = 'infusing'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.infusate = 'pressure-monitoring'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 96, periodUnit: 'h' } },
      definitionCanonical: '#set-work',
    },
    {
      id: 'flush-picc-tunneled',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush an idle lumen of a PICC or tunneled catheter',
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
          label: 'NHS Ayrshire & Arran G004',
          citation:
            'NHS Ayrshire & Arran, guideline G004 (adult cancer care, Scotland): peripherally inserted and tunneled catheters with clamps, not in use: weekly, 10 mL saline into each lumen, then 2 mL heparin 10 units/mL',
        },
        {
          type: 'documentation',
          display:
            'Other values: idle peripherally inserted catheters at least weekly in a hospital table (from memory, secondary); tunneled catheters daily to weekly in common US use (from memory). ESPEN 2020/2023 prefers saline to heparin for long-term devices (from memory, secondary). Published guidelines give no interval for the idle lumen of these lines; this is a regional policy.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type in ('picc' | 'tunneled-cvc')" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#flush-work',
    },
    {
      id: 'flush-midline',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush an idle lumen of a midline catheter',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: midline and peripheral catheters not in use: saline at least every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display: 'Other values: every 8 to 12 hours in some policies (from memory).',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'midline'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#flush-work',
    },
    {
      id: 'flush-nontunneled',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush an idle lumen of a non-tunneled catheter',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: midline and peripheral catheters not in use: saline at least every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display:
            'INS states this for midline and peripheral catheters. No source that was seen gives an interval for the idle lumen of a non-tunneled central venous catheter, so the shortest one stated is applied, the protective reading.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'nontunneled-cvc'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#flush-work',
    },
    {
      id: 'flush-port-accessed',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush an idle port with a needle in',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: midline and peripheral catheters not in use: saline at least every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display:
            'INS states this for midline and peripheral catheters. No source that was seen gives an interval for the idle lumen of a port with a needle in, so the shortest one stated is applied, the protective reading.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'implanted-port'" },
        },
        { kind: 'applicability', expression: { language: 'text/fhirpath', expression: '%line.accessed' } },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#flush-work',
    },
    {
      id: 'flush-port-not-accessed',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush a port that is not in use',
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
          label: 'Port labels, 4 weeks',
          citation:
            'Labels of implanted ports, as reported by Diaz 2017: flush and lock monthly (every 4 weeks) while not in use.',
          url: 'https://pubmed.ncbi.nlm.nih.gov/28084883/',
        },
        {
          type: 'documentation',
          display:
            'Other values: 8 weeks against 4, occlusion 4.1 % and 4.9 % (Wu 2020, meta-analysis, 862 cases); every 3 months (Diaz 2017, 87 patients); 2 to 3 months against 1, occlusion relative risk 1.50, 1.18 to 1.92 (2024, meta-analysis, 4,924 patients, pubmed 39601969); 12 weeks (cohort of 1,059 patients); up to 3 months in INS 2021 (from memory). Label before studies: 4 weeks is taken.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'implanted-port'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.accessed.not()' },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 4, periodUnit: 'wk' } },
      definitionCanonical: '#flush-work',
    },
    {
      id: 'lock-picc-tunneled',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock an idle lumen of a PICC or tunneled catheter',
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
          label: 'NHS Ayrshire & Arran G004',
          citation:
            'NHS Ayrshire & Arran, guideline G004 (adult cancer care, Scotland): peripherally inserted and tunneled catheters with clamps, not in use: weekly, 10 mL saline into each lumen, then 2 mL heparin 10 units/mL',
        },
        {
          type: 'documentation',
          display:
            'Other values: idle peripherally inserted catheters at least weekly in a hospital table (from memory, secondary); tunneled catheters daily to weekly in common US use (from memory). ESPEN 2020/2023 prefers saline to heparin for long-term devices (from memory, secondary). Published guidelines give no interval for the idle lumen of these lines; this is a regional policy.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type in ('picc' | 'tunneled-cvc')" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-midline',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock an idle lumen of a midline catheter',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: midline and peripheral catheters not in use: saline at least every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display: 'Other values: every 8 to 12 hours in some policies (from memory).',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'midline'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-nontunneled',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock an idle lumen of a non-tunneled catheter',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: midline and peripheral catheters not in use: saline at least every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display:
            'INS states this for midline and peripheral catheters. No source that was seen gives an interval for the idle lumen of a non-tunneled central venous catheter, so the shortest one stated is applied, the protective reading.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'nontunneled-cvc'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-port-accessed',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock an idle port with a needle in',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: midline and peripheral catheters not in use: saline at least every 24 hours; from memory',
        },
        {
          type: 'documentation',
          display:
            'INS states this for midline and peripheral catheters. No source that was seen gives an interval for the idle lumen of a port with a needle in, so the shortest one stated is applied, the protective reading.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'implanted-port'" },
        },
        { kind: 'applicability', expression: { language: 'text/fhirpath', expression: '%line.accessed' } },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 24, periodUnit: 'h' } },
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-port-not-accessed',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a port that is not in use',
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
          label: 'Port labels, 4 weeks',
          citation:
            'Labels of implanted ports, as reported by Diaz 2017: flush and lock monthly (every 4 weeks) while not in use.',
          url: 'https://pubmed.ncbi.nlm.nih.gov/28084883/',
        },
        {
          type: 'documentation',
          display:
            'Other values: 8 weeks against 4, occlusion 4.1 % and 4.9 % (Wu 2020, meta-analysis, 862 cases); every 3 months (Diaz 2017, 87 patients); 2 to 3 months against 1, occlusion relative risk 1.50, 1.18 to 1.92 (2024, meta-analysis, 4,924 patients, pubmed 39601969); 12 weeks (cohort of 1,059 patients); up to 3 months in INS 2021 (from memory). Label before studies: 4 weeks is taken.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'implanted-port'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.accessed.not()' },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 4, periodUnit: 'wk' } },
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-dialysis',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock an idle lumen of a dialysis catheter',
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
            'PreCLOT trial (PMC1459124, results 2011): lumens of dialysis catheters locked three times a week with heparin 5000 units/mL, or with an enzyme once a week and heparin twice.',
          url: 'https://www.ncbi.nlm.nih.gov/pmc/articles/PMC1459124/',
        },
        {
          type: 'documentation',
          display:
            'Three locks a week are at most 3 days apart, over the weekend: 3 days is that longest gap. No guideline that was seen states an interval.',
        },
        {
          type: 'documentation',
          display:
            'Other values on what to lock with: heparin 1000 units/mL or citrate 4 % in KDOQI 2019 (from memory); the label of heparin lock solution gives an effect of up to 4 hours.',
        },
        { type: 'documentation', display: 'A lumen whose use is not known is read as not in use.' },
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
      timingTiming: { repeat: { frequency: 1, period: 3, periodUnit: 'd' } },
      definitionCanonical: '#lock-dialysis-work',
    },
    {
      id: 'infusion-stop',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Infusion stop',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infusion-stop',
              display: 'Infusion stop',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS, Infusion Therapy Standards of Practice: the end of an infusion is the event that flush and lock follow; from memory',
        },
      ],
    },
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
          label: 'INS',
          citation:
            'INS, Infusion Therapy Standards of Practice: the blood draw is the event that flush and lock follow; from memory',
        },
      ],
    },
    {
      id: 'flush-after-infusion',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush a lumen after an infusion',
      priority: 'urgent',
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
          label: 'INS, MASCC',
          citation:
            'INS, Infusion Therapy Standards of Practice, and MASCC: flush after each infusion and each blood draw, with 10 to 20 mL saline after blood or a viscous infusion; from memory',
        },
        {
          type: 'documentation',
          display:
            'An infusion that ended on record counts as stopped, whether or not its stop was charted by itself; another one that runs on through the lumen, or a bag that follows within minutes, is no stop.',
        },
      ],
      relatedAction: [
        {
          actionId: 'infusion-stop',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#flush-after-use-work',
    },
    {
      id: 'flush-after-blood-sampling',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Flush a lumen after a blood draw',
      priority: 'urgent',
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
          label: 'INS, MASCC',
          citation:
            'INS, Infusion Therapy Standards of Practice, and MASCC: flush after each infusion and each blood draw, with 10 to 20 mL saline after blood or a viscous infusion; from memory',
        },
        { type: 'documentation', display: 'Common practice, no source: 3 mL saline.' },
      ],
      relatedAction: [
        {
          actionId: 'blood-sampling',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#flush-after-use-work',
    },
    {
      id: 'lock-after-infusion',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen again after an infusion',
      priority: 'urgent',
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
          label: 'US labels',
          citation:
            'US heparin lock flush labels: the lock is replaced after every use of the device; read in a secondary page',
        },
        {
          type: 'documentation',
          display:
            'An infusion that ended on record counts as stopped, whether or not its stop was charted by itself; another one that runs on through the lumen, or a bag that follows within minutes, is no stop.',
        },
        {
          type: 'documentation',
          display:
            'Where the lumen is infusing again no lock is asked for; one whose use is not known is read as not in use.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression:
              "(%line.type in ('tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')).not()",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      relatedAction: [
        {
          actionId: 'infusion-stop',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-dialysis-after-infusion',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen of a dialysis catheter again after an infusion',
      priority: 'urgent',
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
          label: 'US labels',
          citation:
            'US heparin lock flush labels: the lock is replaced after every use of the device; read in a secondary page. Their concentrations are not those of a dialysis catheter: what it is locked with is the prescription’s.',
        },
        {
          type: 'documentation',
          display:
            'An infusion that ended on record counts as stopped, whether or not its stop was charted by itself; another one that runs on through the lumen, or a bag that follows within minutes, is no stop.',
        },
        {
          type: 'documentation',
          display:
            'Where the lumen is infusing again no lock is asked for; one whose use is not known is read as not in use.',
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
      relatedAction: [
        {
          actionId: 'infusion-stop',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#lock-dialysis-work',
    },
    {
      id: 'lock-after-blood-sampling',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen again after a blood draw',
      priority: 'urgent',
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
          label: 'US labels',
          citation:
            'US heparin lock flush labels: the lock is replaced after every use of the device; read in a secondary page',
        },
        {
          type: 'documentation',
          display:
            'Where the lumen is infusing again no lock is asked for; one whose use is not known is read as not in use.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression:
              "(%line.type in ('tunneled-dialysis-catheter' | 'nontunneled-dialysis-catheter')).not()",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      relatedAction: [
        {
          actionId: 'blood-sampling',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#lock-work',
    },
    {
      id: 'lock-dialysis-after-blood-sampling',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen of a dialysis catheter again after a blood draw',
      priority: 'urgent',
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
          label: 'US labels',
          citation:
            'US heparin lock flush labels: the lock is replaced after every use of the device; read in a secondary page. Their concentrations are not those of a dialysis catheter: what it is locked with is the prescription’s.',
        },
        {
          type: 'documentation',
          display:
            'Where the lumen is infusing again no lock is asked for; one whose use is not known is read as not in use.',
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
      relatedAction: [
        {
          actionId: 'blood-sampling',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#lock-dialysis-work',
    },
    {
      id: 'site-assessment',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Look at the exit site',
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
          label: 'INS',
          citation:
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: central venous access devices at least daily; from memory',
        },
        {
          type: 'citation',
          label: 'Home care sheet',
          citation:
            'A public home care sheet of a university hospital for tunneled catheters: look at the site every day.',
        },
        {
          type: 'documentation',
          display:
            'The same in every setting: inpatient at least daily (INS), at home daily (home care sheet), VIP score at least daily. INS asks for every 1 to 2 hours in critical illness and every hour in neonates, of peripheral catheters (from memory): the bundled layers intensive-care and infant ask for that.',
        },
        {
          type: 'documentation',
          display: 'Of an implanted port only while a needle is in: without one there is no exit site.',
        },
      ],
      condition: [
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
      id: 'external-length-measurement',
      title: 'Measure the external length',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'external-length-measurement',
              display: 'External length measurement',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016 and 2021, Infusion Therapy Standards of Practice: measure at insertion, at each dressing change and when dislodgement is suspected; from memory',
        },
        {
          type: 'documentation',
          display:
            '7 days is the longest interval between dressing changes. A limit in centimetres is not in any national text that was seen; local rules use 1 to 3 cm.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('picc' | 'tunneled-cvc' | 'nontunneled-cvc' | 'midline')",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#length-work',
    },
    {
      id: 'necessity-review',
      title: 'Ask whether the line is still needed',
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
          label: 'CDC 2011',
          citation:
            'CDC-HICPAC 2011, Guidelines for the Prevention of Intravascular Catheter-Related Infections, (category IA): remove promptly any catheter that is no longer essential; from memory',
        },
        {
          type: 'citation',
          label: 'SHEA/IDSA 2008',
          citation: 'SHEA/IDSA 2008 compendium: remove nonessential catheters',
          url: 'https://eguideline.guidelinecentral.com/i/53995',
        },
        {
          type: 'citation',
          label: 'SHEA/IDSA/APIC 2022 and ASA 2020',
          citation:
            'SHEA/IDSA/APIC 2022 and ASA 2020 practice guidelines for central venous access: review the need daily; from memory',
        },
        {
          type: 'documentation',
          display:
            'The sources are about acute care. Ambulatory patients and those at home are asked about by the layer home-care, and dialysis catheters quarterly below. Where the setting is not on record, daily.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%patient.setting in ('inpatient' | 'intensive-care')",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
      definitionCanonical: '#necessity-work',
    },
    {
      id: 'access-review-dialysis',
      title: 'Review the access of a patient on dialysis',
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
          label: 'KDOQI 2019',
          citation:
            'KDOQI 2019, clinical practice guideline for vascular access: review the plan of access at least quarterly',
          url: 'https://www.guidelinecentral.com/guideline/22840',
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
      ],
      timingTiming: { repeat: { frequency: 1, period: 3, periodUnit: 'mo' } },
      definitionCanonical: '#necessity-work',
    },
    {
      id: 'access-needle-change',
      title: 'Change the port needle',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'access-needle-change',
              display: 'Access needle change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016 and 2021, Infusion Therapy Standards of Practice: non-coring needle at least every 7 days in continuous use; from memory',
        },
        { type: 'documentation', display: 'Unresolved in CDC 2011 (from memory, secondary).' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type = 'implanted-port'" },
        },
        { kind: 'applicability', expression: { language: 'text/fhirpath', expression: '%line.accessed' } },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#needle-work',
    },
    {
      id: 'antiseptic-bath',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Wash with chlorhexidine in intensive care',
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
          label: 'SHEA/IDSA/APIC 2022',
          citation:
            'SHEA/IDSA/APIC 2022, Strategies to prevent central line-associated bloodstream infections in acute-care hospitals, essential practice: bathe patients in intensive care above 2 months of age with chlorhexidine, daily; from memory, the practice read in a secondary text',
        },
        {
          type: 'documentation',
          display: '2 months are at most 62 days: from the 63rd day on a child is older in any case.',
        },
        {
          type: 'justification',
          display:
            'Asked for only where setting and age are on record: an unneeded chlorhexidine wash is not the safer reading, and below 2 months it can harm the skin.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%patient.setting = 'intensive-care'" },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%patient.ageDays > 62' },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'd' } },
      definitionCanonical: '#bath-work',
    },
    {
      id: 'securement-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Change the adhesive securement device',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'securement-change',
              display: 'Securement change',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS 2016 and 2021, Infusion Therapy Standards of Practice: assess and change the adhesive securement device with the dressing, as its maker says; from memory',
        },
        {
          type: 'documentation',
          display:
            '7 days is the longest interval between dressing changes. Anchors under the skin stay for the time of the line: no rule asks for their change.',
        },
        {
          type: 'justification',
          display:
            'A line of which no adhesive device is on record has none to change; the supplies of the dressing change name one in any case.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.securement = 'adhesive-device'" },
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
      definitionCanonical: '#securement-work',
    },
    {
      id: 'insertion',
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
          label: 'ASA 2020',
          citation:
            'ASA 2020, practice guidelines for central venous access: the insertion is the event that the confirmation of the tip follows; from memory',
        },
      ],
    },
    {
      id: 'tip-confirmation',
      title: 'Confirm where the tip lies',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'tip-confirmation',
              display: 'Tip confirmation',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Dialysis catheter leaflet',
          citation:
            'A dialysis catheter instruction leaflet: verify the position of the tip by x-ray before use',
        },
        {
          type: 'citation',
          label: 'ASA 2020 and INS',
          citation:
            'ASA 2020, practice guidelines for central venous access, and INS, Infusion Therapy Standards of Practice: confirm the tip before use by x-ray or a real-time method; from memory',
        },
        {
          type: 'documentation',
          display:
            'Asked for where the insertion is on record and no confirmation is: on the day of the insertion and the next, and for as long as nothing has run through the line and no blood was drawn. A line that has been in use for longer was confirmed by whoever let it be used; its record is silent, and an item on every such line would hide those that matter. That bound is a reading of the record, not a published value.',
        },
        { type: 'documentation', display: 'Not of a midline: its tip lies below the axilla.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type != 'midline'" },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%line.tipConfirmed.exists() and %line.tipConfirmed.not()',
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1 or %line.used.not()' },
        },
      ],
      relatedAction: [
        {
          actionId: 'insertion',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#tip-work',
    },
    {
      id: 'infusion-start-before-tip-confirmation',
      title: 'No infusion until the tip is confirmed',
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
          label: 'Dialysis catheter leaflet',
          citation:
            'A dialysis catheter instruction leaflet: verify the position of the tip by x-ray before use',
        },
        {
          type: 'citation',
          label: 'ASA 2020 and INS',
          citation:
            'ASA 2020, practice guidelines for central venous access, and INS, Infusion Therapy Standards of Practice: confirm the tip before use by x-ray or a real-time method; from memory',
        },
        {
          type: 'documentation',
          display:
            'It holds where, and for as long as, the confirmation is asked for (rule tip-confirmation).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.type != 'midline'" },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%line.tipConfirmed.exists() and %line.tipConfirmed.not()',
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.dwellDays <= 1 or %line.used.not()' },
        },
      ],
      relatedAction: [{ actionId: 'tip-confirmation', relationship: 'after-end' }],
      requiredBehavior: 'could',
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
          actionId: 'insertion',
          relationship: 'after-end',
          offsetDuration: { value: 48, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#removal-work',
    },
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
            'INS 2021, Infusion Therapy Standards of Practice: the removal is the event that the checks below follow; from memory',
        },
      ],
    },
    {
      id: 'dressing-stays-after-removal',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'The air-occlusive dressing stays on after a removal',
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
          type: 'documentation',
          display:
            'One that is damp, loosened or soiled is no longer air-tight, or may not be: it need not stay on. Common practice, no source.',
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
          expression: { language: 'text/fhirpath', expression: '%line.removedDays.exists()' },
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
      relatedAction: [
        {
          actionId: 'removal',
          relationship: 'after-end',
          offsetDuration: { value: 24, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      requiredBehavior: 'could',
    },
    {
      id: 'site-assessment-after-removal',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Look at the site of a line that was removed',
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
          label: 'INS',
          citation:
            'INS 2021, Infusion Therapy Standards of Practice: air-occlusive dressing on the site for at least 24 hours after the removal of a central line, then the site is looked at; from memory',
        },
        {
          type: 'documentation',
          display:
            'Asked for until two days after the day of the removal: a check that was not charted by then is no longer asked for. That bound is a reading, not a published value.',
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
            expression: '%line.removedDays.exists() and %line.removedDays <= 2',
          },
        },
      ],
      relatedAction: [
        {
          actionId: 'removal',
          relationship: 'after-end',
          offsetDuration: { value: 24, unit: 'hours', system: 'http://unitsofmeasure.org', code: 'h' },
        },
      ],
      definitionCanonical: '#after-removal-work',
    },
  ],
};
