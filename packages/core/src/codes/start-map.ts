import {
  bloodTypes,
  codeSystem,
  dressingTypes,
  lineCareActivities,
  lineFindings,
  lineProperties,
  lineTypes,
  standard,
  type Concept,
} from '@dwellward/profiles';
import type { ConceptMap, ConceptMapGroupElement } from 'fhir/r4.js';
import { normalText } from '../mapping/code-maps.js';
import type { CodeSeen, Concern } from '../model/codes.js';
import { isPublishedSystem } from './concepts-of.js';

/** Where the codes of an element lead to, in the order in which they are tried against its text. */
const targetsOf: Readonly<
  Record<Concern, readonly (readonly [system: string, concepts: readonly Concept[]])[]>
> = {
  line: [[codeSystem.lineType, lineTypes]],
  act: [[codeSystem.lineCareActivity, lineCareActivities]],
  dressing: [[codeSystem.dressingType, dressingTypes]],
  // A row of a chart may be an act as well as a finding.
  finding: [
    [codeSystem.lineFinding, lineFindings],
    [codeSystem.lineCareActivity, lineCareActivities],
  ],
  'finding-value': [[codeSystem.findingValue, []]],
  'line-property': [[codeSystem.lineProperty, lineProperties]],
  drug: [[standard.atc, []]],
  blood: [[Object.keys(bloodTypes)[0] ?? standard.snomed, []]],
  alert: [[standard.atc, []]],
};

/**
 * A ConceptMap to fill in, with an element for every code that is not understood, and for those passed over that no
 * published system names. Nothing in it counts as it stands: every target is `unmatched` and names no code. Its comment says
 * where and how often the code is there, with which values, and which of our codes its text is most like; that is a
 * guess by words, for whoever knows the chart to take or leave.
 * @param seen what `codesSeen` gives @param url the canonical of the map that comes of it
 * @example
 * ```ts
 * const seen = codesSeen([{ resource: { resourceType: 'Device', id: 'd', type: { text: 'PICC 5 Fr' } } }]);
 * startMap(seen, 'https://hospital.example/ConceptMap/lines').group?.[0]?.element[0]?.target?.[0]?.equivalence; // 'unmatched'
 * ```
 */
export function startMap(seen: readonly CodeSeen[], url: string): ConceptMap {
  const groups = new Map<string, { source: string; target: string; element: Map<string, Started> }>();
  for (const one of seen) {
    if (one.standing === 'read' || (one.standing === 'passed-over' && isPublishedSystem(one.system)))
      continue;
    const { system: target, suggestion } = likest(one);
    // A code without a system goes by its text, as what is charted without a code does.
    const coded = one.code !== undefined && one.system !== undefined;
    const code = coded ? one.code : (one.text ?? one.code);
    if (code === undefined) continue;
    const source = coded ? (one.system ?? '') : codeSystem.chartedText;
    const key = JSON.stringify([source, target]);
    const group = groups.get(key) ?? { source, target, element: new Map() };
    groups.set(key, group);
    const known = group.element.get(code);
    if (known === undefined)
      group.element.set(code, { one, suggestion, comments: [commentOf(one, suggestion)] });
    else known.comments.push(commentOf(one, suggestion));
  }
  return {
    resourceType: 'ConceptMap',
    url,
    status: 'draft',
    description:
      'To be filled in: give a target its code and the equivalence equivalent or wider; what stays unmatched is listed as not understood, what concerns no line leads to other-business of charted-item.',
    group: [...groups.values()].map(({ source, target, element }) => ({
      source,
      target,
      element: [...element].map(([code, started]) => elementOf(code, started)),
    })),
  };
}

interface Started {
  readonly one: CodeSeen;
  readonly suggestion: string | undefined;
  readonly comments: string[];
}

function elementOf(code: string, { one, comments }: Started): ConceptMapGroupElement {
  return {
    code,
    ...(one.text === undefined || one.text === code ? {} : { display: one.text }),
    target: [{ equivalence: 'unmatched', comment: comments.join(' ') }],
  };
}

function commentOf({ count, path, onLine, values }: CodeSeen, suggestion: string | undefined): string {
  return [
    `${count} × ${path}${onLine ? ', on a line' : ''}.`,
    ...(values.length > 0 ? [`Values: ${values.join('; ')}.`] : []),
    ...(suggestion === undefined ? [] : [`By its words most like ${suggestion}.`]),
  ].join(' ');
}

/** The target whose words a text is most like, and the system of it; the first system where it is like none. */
function likest({ concern, text, code }: CodeSeen): {
  readonly system: string;
  readonly suggestion?: string;
} {
  const [first] = targetsOf[concern] as [readonly [string, readonly Concept[]]];
  const words = new Set(wordsOf([text, code].join(' ')));
  const rated = targetsOf[concern]
    .flatMap(([system, concepts]) =>
      concepts.map(([target, display]) => {
        const wanted = wordsOf(`${display} ${target}`);
        const found = wanted.filter((word) => words.has(word)).length;
        return {
          system,
          suggestion: `${target} (${display})`,
          share: found / Math.max(1, wanted.length),
          found,
        };
      }),
    )
    .filter(({ share }) => share >= likely)
    .sort((a, b) => b.share - a.share || b.found - a.found);
  return rated[0] ?? { system: first[0] };
}

/** At least so much of the words of a target must stand in a text that it is named as a guess. */
const likely = 0.5;

const wordsOf = (text: string): readonly string[] => [
  ...new Set(
    normalText(text)
      .split(' ')
      .filter((word) => word.length > 2),
  ),
];
