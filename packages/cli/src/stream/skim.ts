import { readRecords, type ReadOptions, type ResourceEntry } from '@dwellward/core';
import { coding } from '@dwellward/profiles';

/** How a server writes the beginning of one; of any other form all of the line is read. */
const beginning = Buffer.from('{"resourceType":"Observation",');
/** Elements that an Observation may have and be no more than its code says; of any other all of the line is read. */
const plain =
  `code category subject performer note id meta text language identifier status encounter effectiveDateTime
  effectivePeriod effectiveInstant issued valueQuantity valueCodeableConcept valueString valueBoolean valueInteger valueRange
  valueRatio valueDateTime valueTime valueSampledData dataAbsentReason interpretation bodySite method specimen
  referenceRange basedOn`.split(/\s+/);
const codeAt = 0;
const categoryAt = 1;
const subjectAt = 2;
const performerAt = 3;
const noteAt = 4;
/** By length and first sign, so that hardly any has to be compared with two. */
const plainByLook: (readonly number[] | undefined)[] = Array.from({ length: 32 * 128 });
for (const [at, name] of plain.entries()) {
  const look = lookOf(name.length, name.charCodeAt(0));
  plainByLook[look] = [...(plainByLook[look] ?? []), at];
}
const plainBytes = plain.map((name) => Buffer.from(name));
const ofPatient = Buffer.from('{"reference":"Patient/');
const somePatient = Buffer.from('Patient/');
/** Kinds of Observations that are remembered; of an export with more, the others are read. */
const mostKinds = 20_000;

/**
 * Whether a line of NDJSON is an Observation that nothing reads, told from its bytes by its code and category: most of an
 * export are such. What a code in a category is worth is asked of the reading itself, once for each. A line that is in any way
 * out of the ordinary is not passed over. One that is passed over is not looked into: that its time can’t be read, or that its
 * name is another’s too, is not said of what nobody reads.
 */
export class Skim {
  readonly #options: ReadOptions;
  /** By the text of category and code. */
  readonly #kinds = new Map<number, readonly Kind[]>();
  #count = 0;
  readonly #elements = new Elements();

  constructor(options: ReadOptions) {
    this.#options = options;
  }

  /** @param from where the line begins. @param to where it ends, without the end of the line. */
  passesOver(bytes: Buffer, from: number, to: number): boolean {
    const found = this.#elements;
    if (!isAt(bytes, from, beginning) || !found.read(bytes, from, to)) return false;
    if (!found.ofOnePatient || found.codeTo === 0) return false;
    const hash = hashOf(
      bytes,
      found.codeFrom,
      found.codeTo,
      hashOf(bytes, found.categoryFrom, found.categoryTo, 0),
    );
    const alike = this.#kinds.get(hash) ?? none;
    for (const kind of alike) if (found.areOf(kind, bytes)) return kind.passed;
    if (this.#count >= mostKinds) return false;
    const kind = {
      category: Buffer.from(bytes.subarray(found.categoryFrom, found.categoryTo)),
      code: Buffer.from(bytes.subarray(found.codeFrom, found.codeTo)),
      passed: isReadByNobody(bytes.toString('utf8', from, to), this.#options),
    };
    this.#kinds.set(hash, [...alike, kind]);
    this.#count += 1;
    return kind.passed;
  }
}

/** What a code in a category is worth. */
interface Kind {
  readonly category: Buffer;
  readonly code: Buffer;
  readonly passed: boolean;
}
const none: readonly Kind[] = [];

const quote = 0x22;
const escape = 0x5c;
const colon = 0x3a;
const comma = 0x2c;
const openObject = 0x7b;
const closeObject = 0x7d;
const openList = 0x5b;
const closeList = 0x5d;

/** The elements of a resource that matter here. Made for speed: it calls nothing and makes no text of what it need not. */
class Elements {
  /** Where they stand; nowhere, from 0 to 0, where they are not given. */
  codeFrom = 0;
  codeTo = 0;
  categoryFrom = 0;
  categoryTo = 0;
  /** Whether the subject is a patient, and no other is named: whoever names two may say that two records are one. */
  ofOnePatient = false;

  areOf({ category, code }: Kind, bytes: Buffer): boolean {
    return (
      this.codeTo - this.codeFrom === code.length &&
      this.categoryTo - this.categoryFrom === category.length &&
      isAt(bytes, this.codeFrom, code) &&
      isAt(bytes, this.categoryFrom, category)
    );
  }

  /** @returns false where the line is no object, has an element twice or one that is not plain, or signs that can’t be read. */
  read(bytes: Buffer, from: number, to: number): boolean {
    this.codeFrom = this.codeTo = this.categoryFrom = this.categoryTo = 0;
    this.ofOnePatient = false;
    // A bit for each; the first 32, and the others.
    let seen = 0;
    let seenToo = 0;
    let others = false;
    let signs = 0;
    let at = from + beginning.length;
    for (;;) {
      if (bytes[at] !== quote) return false;
      const begin = at + 1;
      for (at = begin; at < to && bytes[at] !== quote; at++);
      const which = plainAt(bytes, begin, at);
      if (which < 0 || bytes[at + 1] !== colon) return false;
      const bit = 1 << (which & 31);
      if (((which < 32 ? seen : seenToo) & bit) !== 0) return false;
      if (which < 32) seen |= bit;
      else seenToo |= bit;
      const value = at + 2;
      let depth = 0;
      for (at = value; at < to; at++) {
        const sign = bytes[at] as number;
        if (sign === quote) {
          for (at++; at < to && bytes[at] !== quote; at++) {
            const inside = bytes[at] as number;
            signs |= inside;
            if (inside === escape) at++;
          }
        } else if (sign === openObject || sign === openList) depth += 1;
        else if (depth > 0) {
          if (sign === closeObject || sign === closeList) depth -= 1;
        } else if (sign === comma || sign === closeObject) break;
      }
      if (at >= to) return false;
      if (which === codeAt) {
        this.codeFrom = value;
        this.codeTo = at;
      } else if (which === categoryAt) {
        this.categoryFrom = value;
        this.categoryTo = at;
      }
      if (which === subjectAt) this.ofOnePatient = isAt(bytes, value, ofPatient);
      else if (which === performerAt || which === noteAt) others ||= names(bytes, value, at, somePatient);
      if (bytes[at] === closeObject) break;
      at += 1;
    }
    if (others) this.ofOnePatient = false;
    // Signs of more than one byte may be spoiled ones, and that is said.
    if (signs >= 0x80 && bytes.toString('utf8', from, to).includes('\uFFFD')) return false;
    return at === to - 1;
  }
}

/** Which of the plain elements is named here; -1 where none is. */
function plainAt(bytes: Buffer, from: number, to: number): number {
  const alike = plainByLook[lookOf(to - from, bytes[from] as number)];
  if (alike === undefined) return -1;
  for (const which of alike) {
    const name = plainBytes[which] as Buffer;
    if (name.length === to - from && isAt(bytes, from, name)) return which;
  }
  return -1;
}

function lookOf(length: number, first: number): number {
  return ((length & 31) << 7) | (first & 127);
}

/** FNV-1a of 32 bits. */
function hashOf(bytes: Buffer, from: number, to: number, seed: number): number {
  let hash = seed ^ 0x811c9dc5;
  for (let at = from; at < to; at++) hash = Math.imul(hash ^ (bytes[at] as number), 0x01000193);
  return hash;
}

function isAt(bytes: Buffer, from: number, wanted: Buffer): boolean {
  for (let i = 0; i < wanted.length; i++) if (bytes[from + i] !== wanted[i]) return false;
  return true;
}

function names(bytes: Buffer, from: number, to: number, wanted: Buffer): boolean {
  for (let at = from; at < to; at++) if (isAt(bytes, at, wanted)) return true;
  return false;
}

const patient = { resourceType: 'Patient', id: 'p' };
const subject = { reference: 'Patient/p' };

/** Somebody with a line: what concerns nobody’s line concerns nobody. */
const withLine: readonly ResourceEntry[] = [
  patient,
  {
    resourceType: 'Device',
    id: 'line',
    status: 'active',
    type: { coding: [coding('lineType', 'picc')] },
    patient: subject,
  },
].map((resource) => ({ resource }));

/** Whether the reading makes nothing of it, with a value of any kind and without, but counts it as of other business. */
function isReadByNobody(line: string, options: ReadOptions): boolean {
  const { code, category } = observationIn(line);
  if (code === undefined) return false;
  const same = { ...options, linesElsewhere: true };
  const without = said(withLine, same);
  const values = [
    { valueQuantity: { value: 1, unit: '1', system: 'http://unitsofmeasure.org', code: '1' } },
    { valueCodeableConcept: { text: 'no' } },
    { valueString: 'no' },
    { valueBoolean: true },
    {},
  ];
  return values.every((value) => {
    const one = {
      resourceType: 'Observation',
      id: 'o',
      status: 'final',
      ...(category === undefined ? {} : { category }),
      code,
      subject,
      effectiveDateTime: '2026-01-01T00:00:00Z',
      ...value,
    };
    return said([...withLine, { resource: one }], same) === without;
  });
}

function observationIn(line: string): { readonly code?: unknown; readonly category?: unknown } {
  try {
    return JSON.parse(line) as { code?: unknown; category?: unknown };
  } catch {
    return {};
  }
}

/** All that is made of a record but the count of what is of other business. */
function said(entries: readonly ResourceEntry[], options: ReadOptions): string {
  return JSON.stringify({ ...readRecords(entries, options), otherBusiness: [] });
}
