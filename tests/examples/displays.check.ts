import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import {
  activities,
  activityRow,
  deviceCodes,
  displayOf,
  drugCodes,
  drugRow,
  insertionCodes,
  otherDeviceCodes,
  standard,
  substanceCodes,
  substanceRow,
} from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { examplesOf } from './packages.js';

// What HL7’s packages call the codes that we read: value sets expanded (hl7.fhir.r4.expansions) and codings of examples.

const systems: readonly string[] = [standard.snomed, standard.loinc, standard.atc, standard.rxnorm];

/** The displays of every code of these systems, by `system|code`. */
function displays(): ReadonlyMap<string, ReadonlySet<string>> {
  const found = new Map<string, Set<string>>();
  const take = (system: unknown, code: unknown, display: unknown) => {
    if (typeof code !== 'string' || typeof display !== 'string' || !systems.includes(String(system))) return;
    const key = `${String(system)}|${code}`;
    found.set(key, (found.get(key) ?? new Set()).add(display));
  };
  const walk = (value: unknown, system: unknown): void => {
    if (Array.isArray(value)) value.forEach((one) => walk(one, system));
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return;
    const one = value as Record<string, unknown>;
    const own = one['system'] ?? system;
    take(own, one['code'], one['display']);
    for (const part of Object.values(one)) walk(part, 'concept' in one ? own : system);
  };
  for (const name of [
    'hl7.fhir.r4.expansions',
    'hl7.fhir.r4.examples',
    'hl7.fhir.r5.examples',
    'hl7.fhir.uv.ips',
  ])
    for (const { file, resource } of examplesOf(name))
      if (!/Bundle-(resources|dataelements|profiles|extensions|types|searchParams)/.test(file))
        walk(resource, resource.resourceType === 'CodeSystem' ? resource['url'] : undefined);
  return found;
}

type Meaning = readonly [code: string, words: readonly string[]];
const each = (codes: readonly string[] | undefined, words: readonly string[]): Meaning[] =>
  (codes ?? []).map((code) => [code, words]);
const wordsOf = (text: string) => text.toLowerCase().match(/\p{L}{4,}/gu) ?? [];

/** What we take each code for: a word of it has to stand in the display. */
const meanings: readonly Meaning[] = [
  ...(Object.keys(activities) as (keyof typeof activities)[]).flatMap((activity) => {
    const { display, snomed, snomedOnLine } = activityRow(activity);
    const words = wordsOf(display);
    return [
      ...each(
        snomed?.filter((code) => !insertionCodes.has(code)),
        words,
      ),
      ...each(snomedOnLine, words),
    ];
  }),
  ...[...insertionCodes.keys()].flatMap((code) => each([code], ['insertion', 'cannula', 'catheter'])),
  ...[...deviceCodes].flatMap(([code, { type }]) =>
    each([code], type === undefined ? ['central', 'venous'] : wordsOf(displayOf('lineType', type))),
  ),
  ...drugCodes.flatMap((drug) => {
    const { display, words = [], snomed, rxnorm, atc } = drugRow(drug);
    const named = [...wordsOf(display), ...words];
    return [...each(snomed, named), ...each(rxnorm, named), ...each(atc, named)];
  }),
  ...substanceCodes.flatMap((substance) => {
    const { display, words = [], snomed, rxnorm, atc, problems } = substanceRow(substance);
    const named = [...wordsOf(display), ...words.map((word) => word.toLowerCase())];
    return [
      ...each(snomed, named),
      ...each(rxnorm, named),
      ...each(atc, named),
      ...each(problems?.snomed, [...named, 'thrombocytopenia']),
    ];
  }),
  // Those that core reads.
  ...each(['751-8', '770-8'], ['neutrophils']),
  ...each(['6690-2', '26464-8'], ['leukocytes']),
  ...each(['777-3', '26515-7'], ['platelets']),
  ...each(['29463-7', '3141-9'], ['body weight', 'weight measured']),
  ...each(['8310-5', '8331-1'], ['temperature']),
  ...each(['119364003', '119361006', '122555007'], ['serum', 'plasma', 'blood']),
  ...each(['385669000'], ['successful']),
  ...each(['385670004'], ['partially successful']),
  ...each(['385671000'], ['unsuccessful']),
  ...each(['103693007'], ['diagnostic procedure']),
  ...each(['24642003'], ['psychiatry']),
  ...each(['409063005'], ['counsel']),
  ...each(['409073007'], ['education']),
  ...each(['410606002'], ['social service']),
];

const otherDevices = ['catheter', 'shunt', 'no known device'];

/** Every code in quotation marks in what is read by: of SNOMED CT, LOINC, ATC. */
function codesRead(): string[] {
  const folders = ['../../packages/profiles/src/', '../../packages/core/src/record/'].map((path) =>
    fileURLToPath(new URL(path, import.meta.url)),
  );
  const texts = folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'))
      .map((file) => readFileSync(`${folder}${file}`, 'utf8')),
  );
  const codes = texts.flatMap((text) => [
    ...text.matchAll(/'(\d{1,7}-\d|\d{6,18}|[A-Z]\d{2}[A-Z]{2}\d{2})'/g),
  ]);
  return [...new Set(codes.map(([, code = '']) => code))].sort();
}

// Named in a comment, or read to be left aside, and not for what it is called: heart rate, a panel of vital signs.
const notOurs: ReadonlySet<string> = new Set(['2160-0', '8867-4', '85353-1']);

describe('the codes that are read', () => {
  it('are what HL7’s packages call them, as far as those have them', () => {
    const shown = displays();
    const read = codesRead();
    const found: string[] = [];
    const wrong: string[] = [];
    for (const code of read) {
      const names = systems.flatMap((system) => [...(shown.get(`${system}|${code}`) ?? [])]);
      if (names.length === 0 || notOurs.has(code)) continue;
      found.push(code);
      const words = otherDeviceCodes.has(code)
        ? otherDevices
        : meanings.filter(([one]) => one === code).flatMap(([, own]) => own);
      const fits = names.some((name) =>
        words.some((word) => name.toLowerCase().includes(word.toLowerCase())),
      );
      if (!fits) wrong.push(`${code}: ${names.join('; ')} is none of ${words.join(', ') || 'nothing'}`);
    }
    console.log(`${found.length} of ${read.length} codes that are read have a display in HL7’s packages`);
    expect(wrong).toEqual([]);
    expect(found.length).toBeGreaterThan(25);
  });
});
