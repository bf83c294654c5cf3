import { base, codeSystem, coding, policyExtension, type LineCareActivity } from '@dwellward/profiles';
import type { PlanDefinition, PlanDefinitionAction, RelatedArtifact } from 'fhir/r4.js';
import { unsourcedWords } from './read-documentation.js';

/** What the starting policy is to be called. */
export interface TemplateOptions {
  readonly title?: string;
  /** Canonical url, the unit’s own and without a version. */
  readonly url?: string;
}

const comment = (text: string): RelatedArtifact => ({ type: 'documentation', display: text });
const source: RelatedArtifact = {
  type: 'citation',
  citation: `Replace this by the source that your unit goes by, or keep: ${unsourcedWords}.`,
};
const reason = (text: string): RelatedArtifact => ({ type: 'justification', display: text });

function code(activity: LineCareActivity): PlanDefinitionAction['code'] {
  return [{ coding: [coding('lineCareActivity', activity)] }];
}

function scope(valueCode: string) {
  return { url: policyExtension.ruleScope, valueCode };
}

function when(expression: string): PlanDefinitionAction['condition'] {
  return [{ kind: 'applicability', expression: { language: 'text/fhirpath', expression } }];
}

const actions: readonly PlanDefinitionAction[] = [
  {
    id: 'our-site-assessment',
    title: 'Look at the exit site every eight hours',
    extension: [
      scope('exit-site'),
      { url: policyExtension.ruleLead, valueDuration: { value: 1, unit: 'h', system: ucum(), code: 'h' } },
    ],
    documentation: [
      source,
      comment(
        'An interval: so long after the last time. The rule stands beside those of the base for the same activity; ' +
          'the one that is due first decides. rule-scope says what it is done to (line, lumen, exit-site, incision), ' +
          'rule-lead how long before it is due it may be done.',
      ),
    ],
    code: code('site-assessment'),
    timingTiming: { repeat: { frequency: 1, period: 8, periodUnit: 'h' } },
  },
  {
    id: 'our-dressing-change-drainage',
    title: 'Change the dressing at once when there is drainage at the exit site',
    extension: [scope('exit-site')],
    documentation: [
      source,
      comment(
        'At once: due as soon as a finding with one of these values is charted, and met by the next time it is done.',
      ),
    ],
    priority: 'urgent',
    code: code('dressing-change'),
    trigger: [
      {
        type: 'data-added',
        data: [
          {
            type: 'Observation',
            codeFilter: [
              { path: 'code', code: [{ system: codeSystem.lineFinding, code: 'exit-site' }] },
              { path: 'value', code: [{ system: codeSystem.lineFinding, code: 'drainage' }] },
            ],
          },
        ],
      },
    ],
  },
  {
    id: 'our-blood-sampling',
    title: 'Draw blood through the line',
    documentation: [
      source,
      comment('An anchor: it asks for nothing, it names the event that the next two rules count from.'),
    ],
    code: code('blood-sampling'),
  },
  {
    id: 'our-patency-after-sampling',
    title: 'Check that the lumen is open an hour after blood was drawn',
    extension: [scope('lumen')],
    documentation: [
      source,
      comment('A chain: once, so long after the activity of the action that relatedAction names.'),
    ],
    code: code('patency-assessment'),
    relatedAction: [
      {
        actionId: 'our-blood-sampling',
        relationship: 'after-end',
        offsetDuration: { value: 1, unit: 'h', system: ucum(), code: 'h' },
      },
    ],
  },
  {
    id: 'our-no-bath-after-sampling',
    title: 'No antiseptic bath within half an hour of drawing blood',
    documentation: [
      source,
      comment(
        'A hold: requiredBehavior could makes it forbid its activity for so long. Without offsetDuration it forbids ' +
          'it until the other was done.',
      ),
    ],
    requiredBehavior: 'could',
    code: code('bath'),
    relatedAction: [
      {
        actionId: 'our-blood-sampling',
        relationship: 'after-end',
        offsetDuration: { value: 30, unit: 'min', system: ucum(), code: 'min' },
      },
    ],
  },
  {
    id: 'our-insertion',
    title: 'Put the line in',
    documentation: [source, comment('An anchor again: the act that the next rule is counted back from.')],
    code: code('insertion'),
  },
  {
    id: 'our-teaching-before-insertion',
    title: 'Explain the line on the afternoon before it goes in',
    extension: [
      { url: policyExtension.ruleLead, valueDuration: { value: 3, unit: 'd', system: ucum(), code: 'd' } },
    ],
    documentation: [
      source,
      comment(
        'Before another: counted back from the time for which the other act is planned by a ServiceRequest or an ' +
          'Appointment. timeOfDay, which may be left out, moves it to the last such time of day.',
      ),
    ],
    code: code('teaching'),
    relatedAction: [
      {
        actionId: 'our-insertion',
        relationship: 'before-start',
        offsetDuration: { value: 12, unit: 'h', system: ucum(), code: 'h' },
      },
    ],
    timingTiming: { repeat: { timeOfDay: ['16:00:00'] } },
  },
  {
    id: 'our-tip-confirmation',
    title: 'Confirm where the tip lies',
    documentation: [source, comment('An anchor again: the act that ends the next hold.')],
    code: code('tip-confirmation'),
  },
  {
    id: 'our-no-bath-after-migration',
    title: 'No antiseptic bath from a line that has moved until its tip is confirmed',
    documentation: [
      source,
      comment(
        'A hold that begins with a finding: it lasts until the other activity was done after the finding.',
      ),
    ],
    requiredBehavior: 'could',
    code: code('bath'),
    trigger: [
      {
        type: 'data-added',
        data: [
          {
            type: 'Observation',
            codeFilter: [{ path: 'code', code: [{ system: codeSystem.lineFinding, code: 'migration' }] }],
          },
        ],
      },
    ],
    relatedAction: [{ actionId: 'our-tip-confirmation', relationship: 'after-end' }],
  },
  {
    id: 'our-necessity-review-long',
    title: 'Ask twice a day whether a line is still needed that was only meant for days',
    documentation: [
      source,
      comment(
        'A condition: the rule holds while it is true. Several conditions are joined by and. A fact that is not known ' +
          'counts as true (the protective reading) unless rule-when-unknown says default, with the reason in documentation. ' +
          "Quantities carry a UCUM unit, such as %labs.platelets < 20 '10*9/L'.",
      ),
    ],
    code: code('necessity-review'),
    condition: when("%line.type = 'nontunneled-cvc' and %line.dwellDays > 7"),
    timingTiming: { repeat: { frequency: 1, period: 12, periodUnit: 'h' } },
  },
  {
    id: 'external-length-measurement',
    title: 'Measure the external length every two weeks',
    documentation: [
      source,
      comment(
        'A replaced rule: it has the id of a rule of the base. This one is looser than the base, so it must give its reason.',
      ),
      reason('Replace this by your unit’s reason for a longer interval than the base has.'),
    ],
    code: code('external-length-measurement'),
    timingTiming: { repeat: { frequency: 1, period: 2, periodUnit: 'wk' } },
  },
  {
    id: 'access-needle-change',
    title: 'Port needles are changed by another service',
    documentation: [
      comment(
        'A rule switched off: the id of a rule of the base, and the condition false. It must give its reason.',
      ),
      reason('Replace this by your unit’s reason for not asking for it.'),
    ],
    condition: when('false'),
  },
];

function ucum(): string {
  return 'http://unitsofmeasure.org';
}

/**
 * A starting policy of a unit’s own: a PlanDefinition of HL7 FHIR R4 with one example of each kind of rule, to be laid
 * over the bundled base. JSON has no comments, so they stand in `usage` and in the rules’ `documentation`.
 *
 * Every rule in it is an example and no recommendation: keep what your unit decides, delete the rest. It is a draft
 * until somebody who may decide it says otherwise.
 */
export function policyTemplate({ title, url }: TemplateOptions = {}): PlanDefinition {
  return {
    resourceType: 'PlanDefinition',
    id: 'our-unit',
    url: url ?? 'https://your-hospital.example/fhir/PlanDefinition/our-unit',
    version: '0.1.0',
    name: 'OurUnit',
    title: title ?? 'Line care of our unit',
    type: {
      coding: [
        {
          system: 'http://terminology.hl7.org/CodeSystem/plan-definition-type',
          code: 'clinical-protocol',
          display: 'Clinical Protocol',
        },
      ],
    },
    status: 'draft',
    experimental: true,
    description:
      'A starting point, laid over the bundled base. Every rule in it is an example, not a recommendation.',
    usage:
      'Keep the rules that you want and delete the others; relatedAction needs the action that it names. Give url, ' +
      'version and title of your own, and a new version with every change. effectivePeriod, with start and end as ' +
      'dates, says from which day to which the version is in force. An action’s id is the rule’s name: keep it from ' +
      `version to version. Codes of activities: ${base}/CodeSystem/line-care-activity.`,
    action: structuredCopy(actions),
  };
}

/** The caller may change what it gets. */
function structuredCopy(list: readonly PlanDefinitionAction[]): PlanDefinitionAction[] {
  return JSON.parse(JSON.stringify(list)) as PlanDefinitionAction[];
}
