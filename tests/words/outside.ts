import { english } from '@dwellward/core';
import { outsideBrackets, pseudo } from '../../packages/core/src/words/pseudo.kit.js';
import { bundled, type Output, type Unit } from './outputs.js';

// The rule: what a person reads came through a language, and stands in brackets in the pseudo-language. Outside of them
// stand only the input’s own names, each whole: of patients, places, lines and lumens, of resources and of elements in
// them, of rules, plans and sources, of the zone; and numbers, times, signs and single letters.

/** The pieces of a text between blanks, brackets and the like, without the marks at their ends. */
function piecesOf(text: string): string[] {
  return text
    .split(/[\s()[\]<>{}"“”,;|]+/)
    .map((piece) => piece.replace(/^[.:*]+|[.:*]+$/g, ''))
    .filter((piece) => /\p{L}{2,}/u.test(piece));
}

/** The input’s own names. */
export function ownNames({ records, cares, policy, when }: Unit): ReadonlySet<string> {
  const { lines } = records;
  const issues = [...records.issues, ...cares.flatMap((care) => care.issues)];
  const items = cares.flatMap((care) => care.items);
  const policies = [policy, bundled, ...(policy.versions ?? []).map((one) => one.policy)];
  const rules = [
    ...policies.flatMap(({ rules: own }) => own),
    ...items.flatMap(({ rule, others }) => [rule, ...others.map((other) => other.rule)]),
  ];
  const names = lines.flatMap(({ name, lumens }) => [name, ...lumens.map((lumen) => lumen.name)]);
  const texts = [
    when.zone,
    ...lines.flatMap(({ ref, patient, lumens }) => [
      ...[ref, patient.ref, patient.name, patient.unit, patient.bed],
      ...lumens.map((lumen) => lumen.ref),
    ]),
    ...lines.flatMap(({ events }) => events.map(({ ref }) => ref)),
    ...names.map((name) => (name.code === 'named' ? name.name : undefined)),
    ...issues.flatMap(({ resource, path, patient, line }) => [resource, path, patient, line]),
    ...rules.flatMap(({ id, origin, citations }) => [
      ...[id, origin.url, origin.version, origin.order],
      ...citations.map(({ url }) => url),
    ]),
  ];
  return new Set(texts.flatMap((text) => piecesOf(text ?? '')));
}

/** Every word of a text of the pseudo-language that came through none and is no name of the input’s. */
export function forgotten(
  { kind }: Pick<Output, 'kind'>,
  text: string,
  names: ReadonlySet<string>,
): string[] {
  const found = humanTexts(kind, text).flatMap((one) => piecesOf(outsideBrackets(one)));
  return [...new Set(found.filter((piece) => !names.has(piece)))].sort();
}

/** What is wrong with an output in the pseudo-language: words that came through no language, and what differs. */
export function faultsOf(output: Output, names: ReadonlySet<string>): string[] {
  const [text, own] = [output.in(pseudo), output.in(english)];
  const words = forgotten(output, text, names);
  return [
    ...(words.length > 0 ? [`${output.name} says, in no language: ${words.join(' ')}`] : []),
    ...(plain(output.kind, text) === plain(output.kind, own)
      ? []
      : [`${output.name} is other than in English`]),
  ];
}

/** What people read of an output, each text by itself. */
export function humanTexts(kind: Output['kind'], text: string): string[] {
  switch (kind) {
    case 'text':
      return [text];
    case 'html':
      return [
        text
          .replace(/<style>[^]*?<\/style>/, '')
          .replace(/<[^>]*>/g, ' ')
          .replace(/&(?:amp|lt|gt|quot|#39);/g, ' '),
      ];
    case 'calendar':
      return unfolded(text).flatMap(
        (line) => /^(?:SUMMARY|DESCRIPTION|NAME|X-WR-CALNAME)[^:]*:(.*)$/.exec(line)?.[1] ?? [],
      );
    case 'fhir':
      return textsIn(JSON.parse(text) as unknown);
  }
}

function unfolded(calendar: string): string[] {
  return calendar.replace(/\r\n[ \t]/g, '').split('\r\n');
}

/** Elements of FHIR that are for people. Coding.display is not among them: it is the code system’s own, as R4 wants it. */
const forPeople = new Set(['text', 'description', 'detail', 'title', 'valueString', 'div']);

/** What resources say to people: the elements that are for them, and whatever looks like a sentence elsewhere. */
function textsIn(value: unknown, key = '', parents: readonly string[] = []): string[] {
  if (Array.isArray(value)) return value.flatMap((one: unknown) => textsIn(one, key, parents));
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([name, one]) => textsIn(one, name, [...parents, key]));
  if (typeof value !== 'string') return [];
  // A code’s display, a source as its owner cites it, a condition in FHIRPath, and a place in a resource are no words of
  // ours.
  if (key === 'citation' || key === 'expression' || parents.includes('evidence')) return [];
  // A digest is for programs.
  if (/^[0-9a-f]{32}$/.test(value)) return [];
  if (key === 'display') return parents.includes('focus') ? [value] : [];
  return forPeople.has(key) || /\p{L}{2,} \p{L}{2,}/u.test(value) ? [value] : [];
}

/** What an output says, without brackets: line breaks, columns, capitals and doubled full stops come of the brackets. */
function plain(kind: Output['kind'], text: string): string {
  return (
    (kind === 'calendar' ? unfolded(text).join('\n') : text)
      .replace(/[⟦⟧]/g, '')
      .replace(/\s+/g, ' ')
      .replace(/\.{2,}/g, '.')
      // What a Task says is digested with its words.
      .replace(/(worked-out", ?"valueString": ?")[0-9a-f]{32}/g, '$1')
      .replace(/(lang="|\/\/)(?:qps|en)\b/gi, '$1')
      .toLowerCase()
  );
}
