// Made from plans/infant.json by scripts/embed-plans.mjs: change that file, not this one.

export const plan: unknown = {
  resourceType: 'PlanDefinition',
  id: 'infant',
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
      id: 'lock-neonate-work',
      title: 'Lock the lumen of a neonate',
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
            expression:
              "'Heparin up to an age of 60 days or below 3 kg: 2 units/mL, 2 mL for each lumen, at most 40 units/kg in 24 h from all sources (caregiver sheet of a children’s hospital).'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression:
              "'Never 100 units/mL in neonates and infants, nor a preserved product in neonates (US labels).'",
          },
        },
        {
          path: 'input:caution',
          expression: {
            language: 'text/fhirpath',
            expression: "'Saline with a preservative is not for neonates (benzyl alcohol; from memory).'",
          },
        },
      ],
    },
  ],
  url: 'https://dwellward.example/fhir/PlanDefinition/infant',
  version: '0.1.0',
  name: 'Infant',
  title: 'Lines of neonates and infants',
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
    'A unit layer over the base for neonatal and infant units: up to 28 days of age dressings are changed as clinically needed and not by the calendar, the site is looked at every hour, and an idle lumen is locked every 72 hours.',
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
        {
          type: 'justification',
          display:
            'Loosened for neonates, up to 28 days of age: as clinically needed (INS 2021, standard 42, from memory), and less often in neonatal intensive care where the risk of dislodging the catheter is greater (SHEA/IDSA/APIC 2022; CDC 2011, recommendation 7, of children; both from memory). Damp, loosened or soiled dressings are changed at once in neonates too. An age that is not known is read as older.',
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
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%patient.ageDays > 28' },
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
        {
          type: 'justification',
          display:
            'Loosened for neonates, up to 28 days of age: as clinically needed (INS 2021, standard 42, from memory), and less often in neonatal intensive care where the risk of dislodging the catheter is greater (SHEA/IDSA/APIC 2022; CDC 2011, recommendation 7, of children; both from memory). Damp, loosened or soiled dressings are changed at once in neonates too. An age that is not known is read as older.',
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
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%patient.ageDays > 28' },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 7, periodUnit: 'd' } },
      definitionCanonical: '#dressing-change-work',
    },
    {
      id: 'site-assessment-neonate',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'exit-site' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Look at the exit site of a neonate',
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
            'INS 2016, 2021 and 2024, Infusion Therapy Standards of Practice: site checks every hour in neonates; from memory',
        },
        {
          type: 'documentation',
          display:
            'INS says this of peripheral catheters; this layer takes it for every line: a choice of the unit.',
        },
        { type: 'justification', display: 'Where the age is not on record the base asks daily.' },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%patient.ageDays <= 28' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type != 'implanted-port' or %line.accessed",
          },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 1, periodUnit: 'h' } },
      definitionCanonical: '#site-work',
    },
    {
      id: 'lock-neonate',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-when-unknown', valueCode: 'default' },
      ],
      title: 'Lock an idle lumen of a neonate',
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
          label: 'Auckland 2005',
          citation:
            'Auckland newborn service, heparin administration protocol 2005: idle central lines of neonates, heparin 10 units/mL every 72 hours',
        },
        {
          type: 'documentation',
          display:
            'Other values: flushes every 6 to 8 hours through small capped lines of infants in a drug reference (from memory, secondary). Concentration and dose are the prescription’s; the limits stand in the cautions.',
        },
        {
          type: 'justification',
          display: 'Where the age is not on record the rules of the base ask for their own intervals.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: '%patient.ageDays <= 28' },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('picc' | 'tunneled-cvc' | 'nontunneled-cvc')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      timingTiming: { repeat: { frequency: 1, period: 72, periodUnit: 'h' } },
      definitionCanonical: '#lock-neonate-work',
    },
    {
      id: 'infusion-stop-neonate',
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
      id: 'blood-sampling-neonate',
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
      id: 'lock-neonate-after-infusion',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen of a neonate again after an infusion',
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
        {
          type: 'documentation',
          display:
            'The base asks for the same lock; this one says what a neonate may be given. Where the age is not on record the base’s own stands.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%patient.ageDays.exists() and %patient.ageDays <= 28',
          },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('picc' | 'tunneled-cvc' | 'nontunneled-cvc')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      relatedAction: [
        {
          actionId: 'infusion-stop-neonate',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#lock-neonate-work',
    },
    {
      id: 'lock-neonate-after-blood-sampling',
      extension: [
        { url: 'https://dwellward.example/fhir/StructureDefinition/rule-scope', valueCode: 'lumen' },
      ],
      title: 'Lock a lumen of a neonate again after a blood draw',
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
        {
          type: 'documentation',
          display:
            'The base asks for the same lock; this one says what a neonate may be given. Where the age is not on record the base’s own stands.',
        },
      ],
      condition: [
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: '%patient.ageDays.exists() and %patient.ageDays <= 28',
          },
        },
        {
          kind: 'applicability',
          expression: {
            language: 'text/fhirpath',
            expression: "%line.type in ('picc' | 'tunneled-cvc' | 'nontunneled-cvc')",
          },
        },
        {
          kind: 'applicability',
          expression: { language: 'text/fhirpath', expression: "%lumen.use != 'infusing'" },
        },
      ],
      relatedAction: [
        {
          actionId: 'blood-sampling-neonate',
          relationship: 'after-end',
          offsetDuration: { value: 0, unit: 'minutes', system: 'http://unitsofmeasure.org', code: 'min' },
        },
      ],
      requiredBehavior: 'must',
      definitionCanonical: '#lock-neonate-work',
    },
  ],
};
