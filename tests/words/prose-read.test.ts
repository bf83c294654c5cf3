import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readingsIn } from './prose-read.js';

// No program reads its own sentences back: what it has to know of one is its code and its parameters. Every regular
// expression that asks for a word, and every comparison with a text of more than one word, is looked at here.

const root = fileURLToPath(new URL('../../', import.meta.url));

/** What reads words all the same, and whose words they are. A row that is no longer needed goes. */
const reviewed: Readonly<Record<string, string>> = {
  'packages/core/src/mapping/read-code-maps.ts \\.element.*': 'a path of ours in FHIRPath',
  'packages/core/src/mapping/to-our-codes.ts \\/_history\\/[^/]+$': 'a version in a reference',
  'packages/core/src/mapping/translate.ts ^http:\\/\\/(snomed\\.info|loinc\\.org|www\\.)':
    'a code system’s url',
  'packages/core/src/record/servers.ts \\/Device(UseStatement|Usage|Association)\\/[^/]+$': 'a reference',
  'packages/core/src/versions/fhir-version.ts ^https?:\\/\\/hl7\\.org\\/fhir\\/(\\d\\.\\d|R4B?|R5)\\/StructureDefinition\\/':
    'a url of the standard, for its version',
  'packages/core/src/versions/fhir-version.ts ^https?:\\/\\/hl7\\.org\\/fhir\\/StructureDefinition\\/[A-Za-z]+\\|(\\d\\.\\d(?:\\.\\d)?)':
    'the same',
  'packages/cli/src/commands/policy-new.ts ^(https?:\\/\\/|urn:)[^\\s|]+$': 'a url',
  'packages/core/src/fhir/references.ts ^(urn:|https?:)': 'a url',
  'packages/core/src/cards/care-cards.ts ^https?:\\/\\/[^\\s/]+\\S*$': 'a url',
  'packages/cli/src/stream/route.ts (?:^|\\/)([A-Z][A-Za-z]+\\/[^/#\\s]+)(?:\\/_history\\/[^/]+)?\\s*$':
    'a reference of FHIR',
  "packages/core/src/board/line-view.ts %labs\\.anc\\s*(?:<=|>=|<|>)\\s*([\\d.]+)\\s*'10\\*9\\/L'":
    'a condition in FHIRPath, for its limit',
  'services/adapter/src/auth/token-request.ts ^bearer$': 'the type of a token (RFC 6750)',
  'services/adapter/src/guard/guard.ts ^Bearer +(\\S+) *$': 'a header of HTTP (RFC 6750)',
  'services/adapter/src/hooks/client-guard.ts \\/feedback$': 'an address',
  'services/adapter/src/hooks/client-guard.ts ^Bearer +(\\S+) *$': 'a header of HTTP (RFC 6750)',
  'services/adapter/src/guard/make-guard.ts ^https?:\\/\\/': 'a url',
  'services/adapter/src/local.ts ^(::ffff:)?127(\\.\\d{1,3}){3}$': 'an address',
  'services/adapter/src/board-api/charting.ts ((?:Procedure|Observation)\\/[^/]+)': 'a reference of FHIR',
  'packages/core/src/handover/calendar-feed.ts ((?:BEGIN:VALARM\\r\\n[^]*?\\r\\nEND:VALARM\\r\\n)+)((?:(?!BEGIN:)[^]*?\\r\\n)??)END:VEVENT\\r\\n':
    'the grammar of iCalendar',
  'packages/core/src/record/events.ts (?:^|\\/)(Task\\/[^/#]+)': 'a reference of FHIR',
  'packages/core/src/record/servers.ts \\/_history\\/[^/]+$': 'a reference of FHIR',
  'packages/policy/src/expression.ts  expecting \\{.*$': 'the message of the FHIRPath parser',
  'packages/policy/src/facts.ts ^found\\.(\\w+)\\.([A-Za-z]\\w*)$': 'the name of a fact',
  'packages/policy/src/read-documentation.ts common practice, no source':
    'what the owner of a plan wrote as a source',
  'packages/policy/src/read-documentation.ts from memory': 'what the owner of a plan wrote as a source',
  'packages/policy/src/reason.ts \\breplace this\\b': 'what the owner of a plan has still to write',
  'packages/policy/src/reason.ts ^[^\\p{L}]*(todo|tbd|fixme|xxx+|lorem ipsum|placeholder|n\\.?\\s*\\/?\\s*a\\.?|none|reason)?[^\\p{L}]*$':
    'what the owner of a plan has still to write',
  'packages/policy/src/reason.ts ^[^\\p{L}]*(todo|tbd|fixme)\\b':
    'what the owner of a plan has still to write',
  'packages/policy/src/read-layer.ts ^PlanDefinition\\.': 'a path in a resource',
  'services/adapter/src/listed.ts ^(Group|List)\\/([A-Za-z0-9\\-.]{1,64})$': 'a reference of FHIR',
  'services/adapter/src/listed.ts ^(?:Patient\\/)?([A-Za-z0-9\\-.]{1,64})$': 'an id of FHIR',
  'services/adapter/src/references.ts ^x/(x)(?:/_history/.*)?$': 'a reference of FHIR',
  'services/adapter/src/write.ts ([A-Za-z]+)\\/([A-Za-z0-9\\-.]{1,64})(?:\\/_history\\/([A-Za-z0-9\\-.]{1,64}))?$':
    'a reference of FHIR',
};

function sources(folder: string): string[] {
  return readdirSync(root + folder, { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory())
      return ['dist', 'node_modules', 'recorded', 'generated', 'testing'].includes(entry.name)
        ? []
        : sources(path);
    return /\.(ts|tsx|mts|js|mjs)$/.test(entry.name) && !/\.(test|kit|d)\.ts$/.test(entry.name) ? [path] : [];
  });
}

const files = ['packages', 'services'].flatMap(sources).filter((path) => /\/src\//.test(path));

describe('no program reads sentences back', () => {
  const found = files.flatMap((path) =>
    readingsIn(readFileSync(root + path, 'utf8')).map(({ line, what }) => ({
      row: `${path} ${what}`,
      place: `${path}:${line} reads ${what}`,
    })),
  );

  it('but for what others wrote, each looked at', () => {
    expect(found.filter(({ row }) => !(row in reviewed)).map(({ place }) => place)).toEqual([]);
  });

  it('and nothing is listed that is not there', () => {
    expect(Object.keys(reviewed).filter((one) => !found.some(({ row }) => row === one))).toEqual([]);
  });

  it('is looked for in every package and service', () => {
    for (const folder of ['packages/core', 'packages/policy', 'packages/cli', 'services/adapter'])
      expect(
        files.some((path) => path.startsWith(`${folder}/src/`)),
        folder,
      ).toBe(true);
  });
});

describe('reading a sentence back', () => {
  it.each([
    ['a regular expression with a word and a blank', 'if (/^Held /.test(remark)) skip();'],
    ['one with a long word', 'if (/protective/.test(remark)) skip();'],
    ['one that is made', "const a = new RegExp('protective reading');"],
    ['one that takes an article away', "const a = name.replace(/^the /, '');"],
    ['a beginning', "if (text.startsWith('Not asked yet')) skip();"],
    ['an end', 'if (text.endsWith(`: first steps`)) skip();'],
    ['an end that has a name', "const end = ': first steps'; if (text.endsWith(end)) skip();"],
    ['a part', "if (text.includes('not worked out: ')) skip();"],
    ['a comparison', "if (name === 'the lumen') skip();"],
    ['a case', "switch (name) { case 'the lumen': skip(); }"],
    ['a set', "const unnamed = new Set(['lumen', 'the lumen']);"],
  ])('is %s', (_, source) => {
    expect(readingsIn(source)).toHaveLength(1);
  });

  it.each([
    ['a code', "if (remark.code === 'held') skip();"],
    ['a beginning of a reference', "if (ref.startsWith('Device/')) skip();"],
    ['a regular expression of signs', String.raw`const a = /^\d{4}-\d{2}(?:T\d\d)?$/.exec(text);`],
    ['a class of letters', 'const a = /^[A-Za-z]+$/.test(text);'],
    ['a sentence that is said', "const a = 'Not asked yet';"],
    ['words put together', "const a = parts.join(' and ');"],
  ])('is not %s', (_, source) => {
    expect(readingsIn(source)).toEqual([]);
  });
});
