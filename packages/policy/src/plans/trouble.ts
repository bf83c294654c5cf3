// Made from plans/trouble.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'trouble',
  contained: [
    {
      resourceType: 'ActivityDefinition',
      id: 'air-entry-work',
      title: 'First steps when air has entered',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'air-entry-response',
            display: 'Air entry response',
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
              "'Clamp the line between the opening and the body at once, and close what let the air in.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Lay the patient on the left side with the head down.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Give oxygen, 100 %.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call the emergency team; stay with the patient.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'No pulse: resuscitate on the back with the head down.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Keep the line clamped. Air is drawn back by a clinician only, and only through a catheter that already lies in the right atrium.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamp without teeth'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'oxygen'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringe'" } },
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
      id: 'breakage-work',
      title: 'First steps when a line leaks or is broken',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'breakage-response',
            display: 'Breakage response',
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
              "'Clamp the line between the break and the chest wall (of an arm line, the skin) at once.'",
          },
        },
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Stop every infusion of the line.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Cover the break with sterile gauze and tape it to the skin.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call the responsible clinician and whoever repairs lines now.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Short of breath, chest pain or pale: take it for air in the vein and start with those first steps.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Measure the intact length between the skin and the break, and chart it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Do not use the line until it is repaired or replaced.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'clamp without teeth'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gauze'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'tape'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
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
              "'A piece of the catheter is missing, or the line has torn off under the skin: keep the limb still, cover the site and get urgent help.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'bleeding-work',
      title: 'First steps when a site bleeds',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'bleeding-response',
            display: 'Bleeding response',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Press on the site with sterile gauze.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at clamps, caps and connections: blood that comes out of the line is stopped by its clamp.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Call the responsible clinician when it is much, does not stop, or swells the neck or the chest.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'In the first days after the insertion: pressure on a site that drains much, cold on a swelling.'",
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
          expression: { language: 'text/fhirpath', expression: "'Have platelets and clotting looked up.'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'sterile gauze'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gauze dressing'" } },
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
            expression: "'The line has come out: press on the site and call for help.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'extravasation-work',
      title: 'First steps when fluid has left the vein',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'extravasation-response',
            display: 'Extravasation response',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Stop the infusion at once; do not flush.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Leave the line or the needle in, take the set off and draw back what can be drawn, with a 10 mL syringe.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call the responsible clinician and say which drug it is.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Keep to the drug’s own instructions: antidote, warmth or cold, and who has to see it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Mark the edge of the swelling, measure it, and chart both.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Do not use the line until a clinician has judged it.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringe'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'skin marker'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
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
              "'Warmth helps with some drugs and harms with others: the drug’s instructions say which.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'fever-work',
      title: 'First steps at a fever',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'fever-response',
            display: 'Fever response',
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
              "'Call the responsible clinician now and say what the neutrophil count is; a low one, or none that is known, makes it an emergency.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Shivers during or after a flush or an infusion: stop it, clamp the lumen, do not flush.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Blood cultures, if ordered: a new connector first; the same volume from the line and from a vein, no more than 10 to 15 minutes apart, with the time on each bottle.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look at the exit site, the tunnel and the pocket for redness, hardness, tenderness and drainage.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Do not take the line out for the fever alone.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'blood culture bottles'" },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'needleless connector'" },
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
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'infection-sign-work',
      title: 'First steps at signs of infection',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'infection-sign-response',
            display: 'Infection sign response',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Look at and feel the exit site and the whole tunnel.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Measure how far redness, hardness and tenderness reach from the exit site, and mark the edge.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Up to 2 cm: signs of the exit site. More than 2 cm along the tunnel: signs of the tunnel. Fluid over a port: signs of the pocket.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Drainage: a swab for culture before the skin is cleaned, if ordered.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Call the responsible clinician; signs of the tunnel or the pocket, or fever with them: now.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Change the dressing, and chart what was found.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'skin marker'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'swab for culture'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'dressing'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
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
      id: 'blockage-work',
      title: 'First steps when a lumen is sluggish or blocked',
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
          path: 'input:syringe-size',
          expression: { language: 'text/fhirpath', expression: '%calculated.syringeSize' },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Do not force anything in. No syringe with a barrel narrower than that of a ' & %calculated.syringeSize & ' one.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look for a mechanical cause first: clamp closed, kink, stitch or securement too tight, dressing, connector, needle of a port out of place.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Change the connector and try again without it; have the patient turn, lift the arm, breathe deep or cough.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Chart which it is: sluggish, flushes without blood return, or neither.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Then think of a precipitate: ask the pharmacy about the drugs, calcium phosphate and fat that ran last.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Then think of a clot: ask the prescriber about treatment.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Do not leave it for later, and do not count on the other lumen: tell who is responsible.'",
          },
        },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'needleless connector'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'10 mL syringe'" } },
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
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'migration-work',
      title: 'First steps when a line has moved',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'migration-response',
            display: 'Migration response',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: { language: 'text/fhirpath', expression: "'Stop what runs and do not use the line.'" },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Never push it back in; secure it as it lies.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Measure the external length and compare it with the length at the insertion; look whether the cuff is to be seen.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Call the responsible clinician; the tip is confirmed again before the line is used.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Line out altogether: press on the site, keep the patient flat, air-tight dressing.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'ruler'" } },
        {
          path: 'input:supply',
          expression: { language: 'text/fhirpath', expression: "'securement device'" },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'dressing'" } },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'gloves'" } },
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
      id: 'swelling-work',
      title: 'First steps when the arm, the neck or the face swells',
      status: 'active',
      kind: 'Task',
      code: {
        coding: [
          {
            system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
            code: 'swelling-response',
            display: 'Swelling response',
          },
        ],
      },
      intent: 'plan',
      dynamicValue: [
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Stop what runs through the line until a clinician has judged it.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Look for pain, wide veins of the chest, colour and warmth of the arm; short of breath: emergency call.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Arm: measure around it 10 cm above the elbow fold, on both sides; 3 cm more than before, with swelling, suggests a clot in the vein.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Call the responsible clinician about imaging.'",
          },
        },
        {
          path: 'input:step',
          expression: {
            language: 'text/fhirpath',
            expression: "'Leave the line in until it is decided; no blood pressure on that arm.'",
          },
        },
        { path: 'input:supply', expression: { language: 'text/fhirpath', expression: "'tape measure'" } },
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
      id: 'length-work',
      title: 'Measure a line that has moved',
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
          expression: { language: 'text/fhirpath', expression: "'Never push it back in.'" },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'A line that has moved is not used until the tip is confirmed.'",
          },
        },
      ],
    },
    {
      resourceType: 'ActivityDefinition',
      id: 'tip-work',
      title: 'Confirm the tip of a line that has moved',
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
            expression: "'A line that has moved is not used until the tip is confirmed.'",
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
  url: 'https://dwellward.example/fhir/PlanDefinition/trouble',
  version: '0.1.0',
  name: 'Trouble',
  title: 'First steps in trouble',
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
    'A layer over the base: from a finding to the first steps, short and in order, to be printed. Air, breakage, bleeding, extravasation and fever with few neutrophils are emergencies: nothing holds them. First steps only: the responsible clinician decides what follows.',
  action: [
    {
      id: 'air-entry-response',
      title: 'Air has entered the line: first steps',
      priority: 'stat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'air-entry-response',
              display: 'Air entry response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Published',
          citation:
            'emedicine 761367, venous air embolism; an air embolism module of a university: clamp, left side with the head down, 100 % oxygen; aspiration only through a catheter that is in the right atrium (seen).',
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
                      code: 'air-entry',
                      display: 'Air entry',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#air-entry-work',
    },
    {
      id: 'breakage-response',
      title: 'The line leaks or is broken: first steps',
      priority: 'stat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'breakage-response',
              display: 'Breakage response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Published',
          citation:
            'Home sheet of a US hospital: clamp between the break and the body, cover with sterile gauze, call at once (seen).',
        },
        {
          type: 'documentation',
          display:
            'Common practice, no source, says the same: a damaged line is clamped between the damage and the chest wall at once. No scissors near the line, and urgent help for a torn-off catheter (seen, hospital teaching pages).',
        },
        {
          type: 'documentation',
          display:
            'Of a line that is out there is nothing to clamp: what is missing of it is the finding removed-catheter.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.removedDays.exists().not()' },
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
      definitionCanonical: '#breakage-work',
    },
    {
      id: 'bleeding-response',
      title: 'The site bleeds: first steps',
      priority: 'stat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'bleeding-response',
              display: 'Bleeding response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: pressure on a site that bleeds or drains much, cold on a swelling, call when it does not stop.',
        },
        {
          type: 'documentation',
          display:
            'Gauze until it is resolved: CDC-HICPAC 2011, dressing regimens 2 (category II; from memory). A line that falls out: press (home sheet of a US hospital, seen).',
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
                      code: 'bleeding',
                      display: 'Bleeding',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#bleeding-work',
    },
    {
      id: 'extravasation-response',
      title: 'Fluid has left the vein: first steps',
      priority: 'stat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'extravasation-response',
              display: 'Extravasation response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: stop, draw back, call, and keep to the drug’s own instructions.',
        },
        {
          type: 'documentation',
          display:
            'INS infiltration scale: any amount of blood, an irritant or a vesicant counts as the highest grade (from memory).',
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
                      code: 'extravasation',
                      display: 'Extravasation',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#extravasation-work',
    },
    {
      id: 'fever-response',
      title: 'Fever with a line: first steps',
      priority: 'asap',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'fever-response',
              display: 'Fever response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'Published',
          citation:
            'Home sheets of two US hospitals: call at 38.0 °C (100.4 to 100.5 °F) or more, or at chills after a flush (seen).',
        },
        {
          type: 'documentation',
          display:
            'Not removed for fever alone: CDC-HICPAC 2011 (category II; from memory). Cultures: INS, IDSA (from memory); a difference of 120 minutes or more in the time to positivity supports an infection of the line (IDSA 2009, reported). What counts as fever is local policy: 38.0 and 38.3 °C are both in use.',
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
                      code: 'fever',
                      display: 'Fever',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#fever-work',
    },
    {
      id: 'fever-response-low-count',
      title: 'Fever with a line, neutrophils low or not known: an emergency, first steps',
      priority: 'stat',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'fever-response',
              display: 'Fever response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'From memory',
          citation:
            'Rules for fever in neutropenia, from memory: below 0.5 10*9/L, once 38.3 °C or 38.0 °C for an hour; to be checked against local policy.',
        },
        {
          type: 'documentation',
          display:
            'A count that is not on record, or is too old to tell, is read as a low one: the protective reading, not a published rule. A count at or above the limit leaves the rule for every fever, as soon as possible.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%labs.anc < 0.5 '10*9/L'" },
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
                      code: 'fever',
                      display: 'Fever',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#fever-work',
    },
    {
      id: 'infection-sign-response-exit-site',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Signs of infection at the exit site: first steps',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infection-sign-response',
              display: 'Infection sign response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009, table 4: exit site, redness, hardness or tenderness within 2 cm; tunnel, more than 2 cm along the tract; pocket, infected fluid in the pocket (seen).',
          url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC4039170/table/T4',
        },
        {
          type: 'documentation',
          display:
            'Culture of the drainage first: KDOQI 2019 (reported). The rest is common practice, no source.',
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
                { path: 'value', code: [{ code: 'redness' }, { code: 'tenderness' }, { code: 'pus' }] },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#infection-sign-work',
    },
    {
      id: 'infection-sign-response-exit-site-later',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'A site that is no longer new drains or swells: first steps',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infection-sign-response',
              display: 'Infection sign response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009, table 4: exit site, redness, hardness or tenderness within 2 cm; tunnel, more than 2 cm along the tract; pocket, infected fluid in the pocket (seen).',
          url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC4039170/table/T4',
        },
        {
          type: 'documentation',
          display:
            'Culture of the drainage first: KDOQI 2019 (reported). The rest is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Not in the first days, up to the third after the day of the insertion, where a new site has first steps of its own: a reading, not a published value. Of a line whose insertion is not on record it is asked for.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.signDwellDays > 3' },
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
      definitionCanonical: '#infection-sign-work',
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
      id: 'infection-sign-response-incision',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'incision' },
      ],
      title: 'Signs of infection at the incision: first steps',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infection-sign-response',
              display: 'Infection sign response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009, table 4: exit site, redness, hardness or tenderness within 2 cm; tunnel, more than 2 cm along the tract; pocket, infected fluid in the pocket (seen).',
          url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC4039170/table/T4',
        },
        {
          type: 'documentation',
          display:
            'That the incision over the vein or the port pocket is read in the same way is common practice, no source.',
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
                { path: 'value', code: [{ code: 'redness' }, { code: 'tenderness' }, { code: 'pus' }] },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#infection-sign-work',
    },
    {
      id: 'infection-sign-response-incision-later',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'incision' },
      ],
      title: 'A site that is no longer new drains or swells: first steps',
      priority: 'urgent',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infection-sign-response',
              display: 'Infection sign response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009, table 4: exit site, redness, hardness or tenderness within 2 cm; tunnel, more than 2 cm along the tract; pocket, infected fluid in the pocket (seen).',
          url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC4039170/table/T4',
        },
        {
          type: 'documentation',
          display:
            'That the incision over the vein or the port pocket is read in the same way is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Not in the first days, up to the third after the day of the insertion, where a new site has first steps of its own: a reading, not a published value. Of a line whose insertion is not on record it is asked for.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%line.signDwellDays > 3' },
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
      definitionCanonical: '#infection-sign-work',
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
    {
      id: 'infection-sign-response-tunnel',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
      ],
      title: 'Signs of infection along the tunnel: first steps',
      priority: 'asap',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'infection-sign-response',
              display: 'Infection sign response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'IDSA 2009',
          citation:
            'IDSA 2009, table 4: exit site, redness, hardness or tenderness within 2 cm; tunnel, more than 2 cm along the tract; pocket, infected fluid in the pocket (seen).',
          url: 'https://pmc.ncbi.nlm.nih.gov/articles/PMC4039170/table/T4',
        },
        {
          type: 'documentation',
          display:
            'Culture of the drainage first: KDOQI 2019 (reported). The rest is common practice, no source.',
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
                      code: 'tunnel-signs',
                      display: 'Tunnel signs',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#infection-sign-work',
    },
    {
      id: 'blockage-response-no-return',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'No or little blood return: first steps',
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
          label: 'Published',
          citation:
            'Goossens 2015, Nurs Res Pract 985686: mechanical, thrombotic and precipitate causes (seen); US label of alteplase for catheter occlusion: look for other causes before it (reported).',
        },
        {
          type: 'documentation',
          display:
            'Sluggish, no blood return, neither: INS, CVAA 2013 (from memory). A syringe of at least 10 mL: a dialysis catheter’s leaflet (seen). Which manoeuvres to try is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Not asked for anew after a dose for this blockage: what comes next is the second dose or the question to the clinician (layer occlusion).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven < 1' },
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
      definitionCanonical: '#blockage-work',
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
    },
    {
      id: 'blockage-response-resistance',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen resists the flush: first steps',
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
          label: 'Published',
          citation:
            'Goossens 2015, Nurs Res Pract 985686: mechanical, thrombotic and precipitate causes (seen); US label of alteplase for catheter occlusion: look for other causes before it (reported).',
        },
        {
          type: 'documentation',
          display:
            'Sluggish, no blood return, neither: INS, CVAA 2013 (from memory). A syringe of at least 10 mL: a dialysis catheter’s leaflet (seen). Which manoeuvres to try is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Not asked for anew after a dose for this blockage: what comes next is the second dose or the question to the clinician (layer occlusion).',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%lumen.dosesGiven < 1' },
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
      definitionCanonical: '#blockage-work',
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
    },
    {
      id: 'flush-while-blocked',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen that could not be flushed: nothing in or out until it is found open',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Brisk blood return, or a flush that meets no resistance, ends it. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'blocked' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'lock-while-blocked',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen that could not be flushed: nothing in or out until it is found open',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Brisk blood return, or a flush that meets no resistance, ends it. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'blocked' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'infusion-start-while-blocked',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen that could not be flushed: nothing in or out until it is found open',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Brisk blood return, or a flush that meets no resistance, ends it. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'blocked' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'blood-sampling-while-blocked',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen that could not be flushed: nothing in or out until it is found open',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Brisk blood return, or a flush that meets no resistance, ends it. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'blocked' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'flush-without-blood-return',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen without blood return: nothing in or out until blood returns briskly',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Only brisk blood return ends it: where a clot lets fluid in, a flush that goes in is no sign that the tip lies free. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'none' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'lock-without-blood-return',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen without blood return: nothing in or out until blood returns briskly',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Only brisk blood return ends it: where a clot lets fluid in, a flush that goes in is no sign that the tip lies free. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'none' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'infusion-start-without-blood-return',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen without blood return: nothing in or out until blood returns briskly',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Only brisk blood return ends it: where a clot lets fluid in, a flush that goes in is no sign that the tip lies free. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'none' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'blood-sampling-without-blood-return',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'A lumen without blood return: nothing in or out until blood returns briskly',
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
            'US label of alteplase for catheter occlusion: no excessive pressure into a blocked lumen, it can burst the line or drive the clot out (reported). That nothing goes in or out before it is found open is common practice, no source.',
        },
        {
          type: 'documentation',
          display:
            'Only brisk blood return ends it: where a clot lets fluid in, a flush that goes in is no sign that the tip lies free. To look whether it is open, the first steps and the treatment stay possible.',
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
                { path: 'value', code: [{ code: 'none' }] },
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
      requiredBehavior: 'could',
    },
    {
      id: 'migration-response',
      title: 'The line has moved: first steps',
      priority: 'asap',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'migration-response',
              display: 'Migration response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
        },
        {
          type: 'documentation',
          display:
            'To be reported by the patient: tubing longer or shorter, cuff to be seen (home sheets, seen). No national text gives a limit in cm.',
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
                      code: 'migration',
                      display: 'Migration',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#migration-work',
    },
    {
      id: 'external-length-measurement-after-migration',
      title: 'Measure a line that has moved',
      priority: 'asap',
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
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
        },
        {
          type: 'documentation',
          display:
            'To be reported by the patient: tubing longer or shorter, cuff to be seen (home sheets, seen). No national text gives a limit in cm.',
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
                      code: 'migration',
                      display: 'Migration',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#length-work',
    },
    {
      id: 'tip-confirmation-after-migration',
      title: 'Confirm the tip of a line that has moved',
      priority: 'urgent',
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
          label: 'INS',
          citation:
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
        },
        {
          type: 'documentation',
          display:
            'To be reported by the patient: tubing longer or shorter, cuff to be seen (home sheets, seen). No national text gives a limit in cm.',
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
                      code: 'migration',
                      display: 'Migration',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#tip-work',
    },
    {
      id: 'infusion-start-after-migration',
      title: 'No infusion through a line that has moved until its tip is confirmed',
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
          label: 'INS',
          citation:
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
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
                      code: 'migration',
                      display: 'Migration',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'tip-confirmation-after-migration', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'migration-response-after-length-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'The line is longer or shorter outside than it was: first steps',
      priority: 'asap',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'migration-response',
              display: 'Migration response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
        },
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a change of 1 cm or more. Local rules use 1 to 3 cm; no national text seen gives a limit. It is a local value: whoever keeps another lays a rule of this id over it.',
        },
        {
          type: 'justification',
          display:
            'Where no length at the insertion or the tip confirmation is on record nothing can be compared: reading every measurement as a change would hold every line whose baseline was not charted. The finding migration stands for what is seen.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.externalLengthChange >= 1 'cm'" },
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
                      code: 'external-length',
                      display: 'External length',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#migration-work',
    },
    {
      id: 'tip-confirmation-after-length-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Confirm the tip of a line whose external length has changed',
      priority: 'urgent',
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
          label: 'INS',
          citation:
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
        },
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a change of 1 cm or more. Local rules use 1 to 3 cm; no national text seen gives a limit. It is a local value: whoever keeps another lays a rule of this id over it.',
        },
        {
          type: 'justification',
          display:
            'Where no length at the insertion or the tip confirmation is on record nothing can be compared: reading every measurement as a change would hold every line whose baseline was not charted. The finding migration stands for what is seen.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.externalLengthChange >= 1 'cm'" },
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
                      code: 'external-length',
                      display: 'External length',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#tip-work',
    },
    {
      id: 'infusion-start-after-length-change',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'No infusion through a line whose external length has changed until its tip is confirmed',
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
          label: 'INS',
          citation:
            'INS Standards of Practice 2016 and 2021: never push it back in; measure when dislodgement is suspected; imaging of the tip before use (from memory).',
        },
        {
          type: 'citation',
          label: 'Common practice',
          citation:
            'Common practice, no source: a change of 1 cm or more. Local rules use 1 to 3 cm; no national text seen gives a limit. It is a local value: whoever keeps another lays a rule of this id over it.',
        },
        {
          type: 'justification',
          display:
            'Where no length at the insertion or the tip confirmation is on record nothing can be compared: reading every measurement as a change would hold every line whose baseline was not charted. The finding migration stands for what is seen.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%line.externalLengthChange >= 1 'cm'" },
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
                      code: 'external-length',
                      display: 'External length',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      relatedAction: [{ actionId: 'tip-confirmation-after-length-change', relationship: 'after-end' }],
      requiredBehavior: 'could',
    },
    {
      id: 'swelling-response',
      title: 'Arm, neck or face is swollen: first steps',
      priority: 'asap',
      code: [
        {
          coding: [
            {
              system: 'https://dwellward.example/fhir/CodeSystem/line-care-activity',
              code: 'swelling-response',
              display: 'Swelling response',
            },
          ],
        },
      ],
      documentation: [
        {
          type: 'citation',
          label: 'INS',
          citation:
            'INS Standards of Practice: around the arm 10 cm above the elbow fold; 3 cm more, with swelling, suggests a clot (from memory).',
        },
        {
          type: 'documentation',
          display:
            'Swelling of arm or neck is a reason to call: home sheets of two US hospitals (seen). That nothing runs until it is judged is common practice, no source.',
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
                      code: 'arm-neck-swelling',
                      display: 'Arm or neck swelling',
                    },
                  ],
                },
              ],
            },
          ],
        },
      ],
      definitionCanonical: '#swelling-work',
    },
  ],
};
