import type { CodeSystemConceptProperty, CodeSystemProperty } from 'fhir/r4.js';
import type { ActivityRow } from './activity-row.js';
import { activities, type LineCareActivity } from './activities.js';
import { activityRow } from './activity-queries.js';
import { codeSystem, standard } from './base.js';
import type { FindingRow } from './finding-row.js';
import { findingRow, findings, valuesOf, type LineFinding } from './findings.js';

/** The properties that the concepts of a code system may have, and those that one of them has. */
export interface ConceptProperties {
  readonly defined: readonly CodeSystemProperty[];
  readonly of: (code: string) => CodeSystemConceptProperty[];
}

type Value = Omit<CodeSystemConceptProperty, 'code'>;

interface Column<Code, Row> {
  readonly code: string;
  readonly type: CodeSystemProperty['type'];
  readonly description: string;
  readonly values: (row: Row, code: Code) => readonly Value[];
}

// One property for each column of the table, and the types see to it that none is forgotten.
type Columns<Code, Row> = {
  readonly [Name in Exclude<keyof Row, 'display' | 'definition'>]-?:
    Column<Code, Row> | readonly Column<Code, Row>[];
};

const codeValue = (value: string | undefined): Value[] => (value === undefined ? [] : [{ valueCode: value }]);
const text = (value: string | undefined): Value[] => (value === undefined ? [] : [{ valueString: value }]);
const flag = (value: true | undefined): Value[] => (value ? [{ valueBoolean: true }] : []);

const ofActivity: Columns<LineCareActivity, ActivityRow> = {
  scope: {
    code: 'default-scope',
    type: 'code',
    description: 'What it is due on where neither a rule nor an order says.',
    values: ({ scope }) => codeValue(scope),
  },
  role: {
    code: 'role',
    type: 'code',
    description: 'The line is in place from it on (begins-line), or until it (ends-line).',
    values: ({ role }) => codeValue(role),
  },
  throughLumen: {
    code: 'through-lumen',
    type: 'boolean',
    description: 'Something goes into the lumen or comes out of it.',
    values: ({ throughLumen }) => flag(throughLumen),
  },
  leavesLumen: {
    code: 'leaves-lumen',
    type: 'code',
    description: 'What the lumen is afterwards: infusing, locked, open, or as-it-was.',
    values: ({ leavesLumen }) => codeValue(leavesLumen),
  },
  turn: {
    code: 'turn',
    type: 'integer',
    description: 'Its place among those that are charted at one time on one lumen.',
    values: ({ turn }) => (turn === undefined ? [] : [{ valueInteger: turn }]),
  },
  namesLumen: {
    code: 'names-lumen',
    type: 'boolean',
    description:
      'It is done to one lumen: of a line with several, one that does not say which counts for none.',
    values: ({ namesLumen }) => flag(namesLumen),
  },
  flushAfter: {
    code: 'flush-after',
    type: 'boolean',
    description: 'The lumen is to be flushed after it.',
    values: ({ flushAfter }) => flag(flushAfter),
  },
  countsUnsuccessful: {
    code: 'counts-unsuccessful',
    type: 'boolean',
    description: 'It counts however it came out, because the lumen is changed all the same.',
    values: ({ countsUnsuccessful }) => flag(countsUnsuccessful),
  },
  putsToUse: {
    code: 'puts-to-use',
    type: 'boolean',
    description: 'From then on the line counts as used.',
    values: ({ putsToUse }) => flag(putsToUse),
  },
  needle: {
    code: 'needle',
    type: 'code',
    description: 'It puts the needle of a port in, or takes it out.',
    values: ({ needle }) => codeValue(needle),
  },
  impliedBy: {
    code: 'implied-by',
    type: 'code',
    description: 'The start or the end of an infusion tells that it was done, also where nobody charted it.',
    values: ({ impliedBy }) => codeValue(impliedBy),
  },
  look: {
    code: 'look',
    type: 'boolean',
    description: 'It finds out how things are at that moment and leaves them unchanged.',
    values: ({ look }) => flag(look),
  },
  ofPatient: {
    code: 'of-patient',
    type: 'boolean',
    description: 'It is done for the patient as a whole: once for all lines that are in.',
    values: ({ ofPatient }) => flag(ofPatient),
  },
  visit: {
    code: 'visit',
    type: 'code',
    description: 'What of one visit is due together is done, shown and rung for once.',
    values: ({ visit }) => codeValue(visit),
  },
  preparesInsertion: {
    code: 'prepares-insertion',
    type: 'boolean',
    description: 'It may be done for a line that is not in yet.',
    values: ({ preparesInsertion }) => flag(preparesInsertion),
  },
  putsDressingOn: {
    code: 'puts-dressing-on',
    type: 'code',
    description: 'It puts a dressing on the exit site: always, or only where it says which (where-said).',
    values: ({ putsDressingOn }) => codeValue(putsDressingOn),
  },
  setsExternalLength: {
    code: 'sets-external-length',
    type: 'boolean',
    description: 'The length outside the skin is compared with what it was then.',
    values: ({ setsExternalLength }) => flag(setsExternalLength),
  },
  atHome: {
    code: 'at-home',
    type: 'code',
    description:
      'Who does it for a patient at home: anybody, patient (of a line whose care is taught), unit, or the team among itself.',
    values: ({ atHome }) => codeValue(atHome),
  },
  leftAtHome: {
    code: 'left-at-home',
    type: 'boolean',
    description:
      'The patient or the family would do it: while it must not be done, the sheet for home says so.',
    values: ({ leftAtHome }) => flag(leftAtHome),
  },
  confirmsTip: {
    code: 'confirms-tip',
    type: 'boolean',
    description: 'It finds out where the tip lies: while it is asked for, nothing should run.',
    values: ({ confirmsTip }) => flag(confirmsTip),
  },
  mayUse: {
    code: 'may-use',
    type: 'code',
    description: 'A substance that it may use where its ActivityDefinition names none.',
    values: ({ mayUse }) => Object.keys(mayUse ?? {}).map((valueCode) => ({ valueCode })),
  },
  snomed: {
    code: 'read-from',
    type: 'Coding',
    description: 'A code of another system that is read as it.',
    values: ({ snomed = [] }) => snomed.map((code) => ({ valueCoding: { system: standard.snomed, code } })),
  },
  snomedOnLine: {
    code: 'read-from-on-line',
    type: 'Coding',
    description: 'A code of another system that is read as it where the event names a line or a lumen.',
    values: ({ snomedOnLine = [] }) =>
      snomedOnLine.map((code) => ({ valueCoding: { system: standard.snomed, code } })),
  },
};

type Finding = FindingRow<LineFinding, LineCareActivity>;

const graded = (grade: 0 | 1 | 2): Column<LineFinding, Finding> => ({
  code: `grade-${grade}`,
  type: 'code',
  description: `A value that tells that a lumen is ${(['open', 'sluggish', 'blocked'] as const)[grade]}.`,
  values: ({ values = {} }) =>
    Object.entries(values)
      .filter(([, value]) => value.grade === grade)
      .flatMap(([value]) => codeValue(value)),
});

const ofFinding: Columns<LineFinding, Finding> = {
  scope: {
    code: 'default-scope',
    type: 'code',
    description: 'What it is seen on where the record does not say.',
    values: ({ scope }) => codeValue(scope),
  },
  kind: {
    code: 'kind',
    type: 'code',
    description:
      'Its value: coded, components (those that are present), presence (or a grade in other words), boolean, quantity.',
    values: ({ kind }) => codeValue(kind),
  },
  unit: {
    code: 'unit',
    type: 'code',
    description: 'The UCUM unit of its quantity.',
    values: ({ unit }) => codeValue(unit),
  },
  values: [
    {
      code: 'value',
      type: 'code',
      description: 'A value that it may have.',
      values: ({ values = {}, valuesFrom, kind }, code) =>
        (valuesFrom !== undefined || kind === 'components'
          ? (valuesOf(code) ?? [])
          : Object.keys(values)
        ).flatMap(codeValue),
    },
    {
      code: 'says-no',
      type: 'code',
      description: 'A value that says that nothing of the kind was found.',
      values: ({ values = {} }) =>
        Object.entries(values)
          .filter(([, value]) => value.saysNo)
          .flatMap(([value]) => codeValue(value)),
    },
    graded(0),
    graded(1),
    graded(2),
  ],
  valuesFrom: {
    code: 'values-from',
    type: 'string',
    description: 'The canonical of the code system that its values are of.',
    values: ({ valuesFrom }) => text(valuesFrom && codeSystem[valuesFrom]),
  },
  component: {
    code: 'component-of',
    type: 'code',
    description: 'The finding that it is a part of.',
    values: ({ component }) => codeValue(component),
  },
  answeredBy: {
    code: 'answered-by',
    type: 'code',
    description: 'The line-care activity that puts it right.',
    values: ({ answeredBy }) => codeValue(answeredBy),
  },
  toldBy: {
    code: 'told-by',
    type: 'code',
    description: 'The line-care activity, a look, that finds it: who charts it has looked.',
    values: ({ toldBy }) => codeValue(toldBy),
  },
  ofPatient: {
    code: 'of-patient',
    type: 'boolean',
    description: 'It is of the patient as a whole, and seen on every line that is in.',
    values: ({ ofPatient }) => flag(ofPatient),
  },
  lackCounts: {
    code: 'lack-counts',
    type: 'boolean',
    description: 'That there is none of it is a finding of its own.',
    values: ({ lackCounts }) => flag(lackCounts),
  },
  well: {
    code: 'well',
    type: 'code',
    description: 'A value by which all is well, beside those that say no.',
    values: ({ well = [] }) => well.flatMap(codeValue),
  },
  wrongIf: {
    code: 'wrong-if',
    type: 'code',
    description: 'The answer of a yes or no that tells of something wrong.',
    values: ({ wrongIf }) => codeValue(wrongIf),
  },
  judgedBy: {
    code: 'judged-by',
    type: 'string',
    description: 'The fact by which policies judge its quantity, where that is not the quantity itself.',
    values: ({ judgedBy }) => text(judgedBy),
  },
  tellsPatency: {
    code: 'tells-patency',
    type: 'boolean',
    description: 'It tells whether a lumen is open.',
    values: ({ tellsPatency }) => flag(tellsPatency),
  },
  whileNew: {
    code: 'while-new',
    type: 'boolean',
    description: 'A new site does so while it settles.',
    values: ({ whileNew }) => flag(whileNew),
  },
  stopsWhatRuns: {
    code: 'stops-what-runs',
    type: 'boolean',
    description: 'Where it was found nothing may run on: a hold that it begins says so without an “or”.',
    values: ({ stopsWhatRuns }) => flag(stopsWhatRuns),
  },
  wholeLine: {
    code: 'whole-line',
    type: 'boolean',
    description: 'Said of one of several lumens it says nothing of the line.',
    values: ({ wholeLine }) => flag(wholeLine),
  },
  toldAs: {
    code: 'told-as',
    type: 'string',
    description: 'How a sentence names it before its values.',
    values: ({ toldAs }) => text(toldAs),
  },
};

function propertiesOf<Code extends string, Row>(
  columns: Columns<Code, Row>,
  rowOf: (code: string) => readonly [Code, Row] | undefined,
): ConceptProperties {
  const all = Object.values<Column<Code, Row> | readonly Column<Code, Row>[]>(
    columns,
  ).flat() as readonly Column<Code, Row>[];
  return {
    defined: all.map(({ code, type, description }) => ({ code, description, type })),
    of: (concept) => {
      const found = rowOf(concept);
      if (found === undefined) return [];
      return all.flatMap(({ code, values }) =>
        values(found[1], found[0]).map((value) => ({ code, ...value })),
      );
    },
  };
}

const isActivity = (code: string): code is LineCareActivity => Object.hasOwn(activities, code);
const isFinding = (code: string): code is LineFinding => Object.hasOwn(findings, code);

export const activityProperties = propertiesOf(ofActivity, (code) =>
  isActivity(code) ? ([code, activityRow(code)] as const) : undefined,
);
export const findingProperties = propertiesOf(ofFinding, (code) =>
  isFinding(code) ? ([code, findingRow(code)] as const) : undefined,
);
