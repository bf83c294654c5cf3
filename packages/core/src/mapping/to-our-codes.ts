import type { LineType } from '@dwellward/profiles';
import type { Ref } from '../model/basics.js';
import { digest } from '../model/digest.js';
import { ownName, type ResourceEntry } from '../model/resource-entry.js';
import { cellsOf, hasFocus, momentOf, product, putsDressingOn, type Cell } from './cells.js';
import { knownDevice, lumenCountOf, type KnownDevice, type Row } from './charted-lines.js';
import { actOf, dressingIn, exchange, findingOf, type Source } from './charted-resources.js';
import type { CodeMaps } from './code-maps.js';
import { isObject, objectsOf, referenceOf, type Json } from './json.js';
import { Places, type Placed } from './place-rows.js';
import { isTranslated, translated, type ByText } from './translate.js';

/** What was read so although the record does not say it by itself. */
export type Assumption =
  | { readonly kind: 'text'; readonly text: string; readonly as: string; readonly refs: readonly Ref[] }
  | { readonly kind: 'only-line'; readonly line: Ref; readonly patient: Ref; readonly refs: readonly Ref[] }
  | {
      readonly kind: 'line';
      readonly line: Ref;
      readonly patient: Ref;
      readonly type: LineType;
      readonly refs: readonly Ref[];
      readonly untold: readonly Untold[];
    };

/** What a chart does not tell of a line. */
export type Untold = 'lumens' | 'dressing-type' | 'what-runs';

/** A record in our codes, beside those of the hospital. */
export interface InOurCodes {
  readonly entries: readonly ResourceEntry[];
  readonly assumptions: readonly Assumption[];
  /** The Observations that a map reads as rows of a chart. */
  readonly rows: ReadonlySet<Ref>;
}

/**
 * A record with our codes beside the hospital’s, wherever its maps have them, and with a Procedure, an Observation or a
 * Device for what only the rows of a nursing chart tell: what is read after it knows one way of saying each.
 *
 * What is worked out goes by the name of the resource it was worked out from. The entry of a resource of which the maps say
 * nothing is the one that was given; nothing that was given is written to, and the order does not matter.
 */
export function toOurCodes(given: readonly ResourceEntry[], maps: CodeMaps | undefined): InOurCodes {
  if (maps === undefined || maps.empty) return { entries: given, assumptions: [], rows: new Set() };
  return new Step(given, maps).result();
}

interface Charted extends Source {
  readonly translated: Json;
  readonly rows: readonly Row[];
}

/** A resource that was worked out. */
interface Made {
  readonly entry: ResourceEntry;
  /** True where it is of the Observation itself, not of a component. */
  readonly whole: boolean;
  readonly chartedAt?: number;
}

/** When dressings were put on a line, and which are charted as in place, in their order. */
interface Dressings {
  readonly put: readonly number[];
  readonly told: readonly { readonly at: number; readonly type: string }[];
}

class Step {
  readonly #entries: ResourceEntry[] = [];
  readonly #charted: Charted[] = [];
  readonly #devices: KnownDevice[] = [];
  readonly #names = new Map<string, Ref>();
  readonly #texts = new Map<string, { text: string; as: string; refs: Set<Ref> }>();
  readonly #places: Places;
  readonly #assumed = new Map<Ref, { patient: Ref; refs: Set<Ref> }>();
  #byLine: ReadonlyMap<Ref, Dressings> | undefined;

  constructor(
    given: readonly ResourceEntry[],
    readonly maps: CodeMaps,
  ) {
    for (const entry of given) {
      const name = ownName(entry);
      if (name !== undefined && entry.fullUrl !== undefined) this.#names.set(entry.fullUrl, name);
    }
    for (const entry of given) this.#read(entry);
    this.#places = new Places(
      this.#devices,
      this.#charted.flatMap(({ rows, observation }) => (hasFocus(observation) ? [] : rows)),
    );
  }

  result(): InOurCodes {
    const made = this.#charted.flatMap((one) => this.#made(one));
    const entries = [...this.#entries, ...this.#places.devices, ...onceEach(made)];
    return { entries, assumptions: this.#assumptions(), rows: new Set(this.#charted.map(({ ref }) => ref)) };
  }

  #read(entry: ResourceEntry): void {
    const { resource } = entry;
    if (!isObject(resource) || !isTranslated(resource['resourceType'])) {
      this.#entries.push(entry);
      return;
    }
    const ref = this.#refOf(entry, resource);
    const texts: ByText[] = [];
    const ours = translated(resource, this.maps, (one) => texts.push(one));
    for (const one of texts) this.#byText(one.text, one.target.code, ref);
    if (resource['resourceType'] === 'Device')
      this.#devices.push(knownDevice(ours, ref, (reference) => this.#nameOf(reference)));
    const cells = resource['resourceType'] === 'Observation' ? cellsOf(resource, this.maps) : [];
    // A value that is charted as part of another finding stays with it.
    const own = cells.filter(
      ({ component, said }) => component === undefined || said.kind !== 'finding' || !isFinding(cells),
    );
    if (own.length === 0) {
      this.#entries.push(ours === resource ? entry : { ...entry, resource: ours });
      return;
    }
    const [patient, encounter] = [referenceOf(resource['subject']), referenceOf(resource['encounter'])];
    const valid = !takenBack.has(String(resource['status']));
    const rows = own.map((cell): Row => ({
      cell,
      ref,
      valid,
      ...(patient === undefined ? {} : { patient: this.#nameOf(patient) }),
      ...(encounter === undefined ? {} : { encounter: this.#nameOf(encounter) }),
    }));
    this.#charted.push({ entry, observation: resource, ref, translated: ours, rows });
  }

  #refOf(entry: ResourceEntry, resource: Json): Ref {
    return (
      ownName(entry) ??
      entry.fullUrl ??
      `${String(resource['resourceType'])}/${digest(JSON.stringify(resource))}`
    );
  }

  #nameOf(reference: string): Ref {
    const plain = reference.replace(/\/_history\/[^/]+$/, '');
    return this.#names.get(plain) ?? /(?:^|\/)([A-Z][A-Za-z]+\/[^/]+)$/.exec(plain)?.[1] ?? plain;
  }

  #byText(text: string, as: string, ref: Ref): void {
    const key = `${as}\u0000${text}`;
    const known = this.#texts.get(key) ?? { text, as, refs: new Set<Ref>() };
    known.refs.add(ref);
    this.#texts.set(key, known);
  }

  /** What the rows of an Observation come to. */
  #made(source: Charted): Made[] {
    const made = source.rows.flatMap((row) => this.#ofRow(source, row));
    const whole = source.rows.find(({ cell }) => cell.component === undefined);
    // An Observation that is an act and nothing else is that act; every other one stays, to be read or listed.
    const parts = Array.isArray(source.observation['component']) ? source.observation['component'].length : 0;
    const gone = whole !== undefined && made.some(({ whole }) => whole) && parts < source.rows.length;
    return gone ? made : [...made, { entry: this.#itself(source, whole), whole: true }];
  }

  /** The Observation as it stays: as the hospital has it where our code for it brought nothing about. */
  #itself(source: Charted, whole: Row | undefined): ResourceEntry {
    const lost =
      whole?.cell.said.kind === 'dressing' &&
      (dressingIn(whole.cell, source.translated) === undefined || this.#place(source, whole) === undefined);
    return lost ? source.entry : { ...source.entry, resource: source.translated };
  }

  #ofRow(source: Charted, row: Row): Made[] {
    const { cell } = row;
    const { said } = cell;
    const whole = cell.component === undefined;
    const part = cell.component === undefined ? '' : `#part-${cell.component + 1}`;
    const named = (suffix: string): Source => ({ ...source, ref: `${source.ref}${suffix}` });
    if (said.kind === 'act' && cell.answer !== 'unclear') {
      const used = putsDressingOn(said.activity) ? this.#dressing(source, row) : undefined;
      const entry = actOf(named(part), cell, said.activity, this.#devicesOf(source, row), used);
      return [{ entry, whole, ...this.#again(source, cell) }];
    }
    if (said.kind === 'exchange' && cell.answer === 'yes') {
      const [out, into] = [this.#devicesOf(source, row), this.#devicesOf(source, row, true)];
      return [
        {
          entry: actOf(named(`${part}#out`), cell, exchange.out, out, undefined),
          whole,
          ...this.#again(source, cell),
        },
        {
          entry: actOf(named(`${part}#in`), cell, exchange.in, into, undefined),
          whole,
          ...this.#again(source, cell),
        },
      ];
    }
    if (said.kind !== 'finding') return [];
    const device = hasFocus(source.observation) ? undefined : this.#place(source, row)?.device;
    return [{ entry: findingOf(named(part), cell, source.translated, device), whole }];
  }

  /** Of an act that is charted by its time: when it was charted. */
  #again(source: Charted, { target }: Cell): Pick<Made, 'chartedAt'> {
    if (product(target, 'Procedure.performed') !== 'Observation.value') return {};
    return { chartedAt: momentOf(source.observation) ?? 0 };
  }

  /** References to what an act was done to. */
  #devicesOf(source: Charted, row: Row, begins?: boolean): readonly string[] {
    if (hasFocus(source.observation))
      return objectsOf(source.observation['focus']).flatMap((one) => referenceOf(one) ?? []);
    const place = this.#place(source, row, begins);
    return place === undefined ? [] : [place.device];
  }

  #place(source: Charted, row: Row, begins?: boolean): Placed | undefined {
    if (hasFocus(source.observation)) return undefined;
    const place = this.#places.of(row, begins);
    if (place?.assumed && row.patient !== undefined) {
      const known = this.#assumed.get(place.line) ?? { patient: row.patient, refs: new Set<Ref>() };
      known.refs.add(row.ref);
      this.#assumed.set(place.line, known);
    }
    return place;
  }

  /** Which dressing was put on: the first that is charted as in place from then on, before the next is put on. */
  #dressing(source: Charted, row: Row): string | undefined {
    const from = momentOf(row.cell.time);
    const line = hasFocus(source.observation) ? undefined : this.#places.of(row)?.line;
    if (from === undefined || line === undefined) return undefined;
    const { put, told } = this.#dressings().get(line) ?? { put: [], told: [] };
    const until = put.find((at) => at > from) ?? Infinity;
    return told.find(({ at }) => at >= from && at < until)?.type;
  }

  #dressings(): ReadonlyMap<Ref, Dressings> {
    if (this.#byLine !== undefined) return this.#byLine;
    const byLine = new Map<Ref, { put: number[]; told: { at: number; type: string; ref: Ref }[] }>();
    for (const { rows, translated: ours, ref, observation } of this.#charted) {
      for (const row of hasFocus(observation) ? [] : rows) {
        const { cell, valid } = row;
        const at = momentOf(cell.time);
        const line = valid && at !== undefined ? this.#places.of(row)?.line : undefined;
        if (line === undefined || at === undefined) continue;
        const known = byLine.get(line) ?? { put: [], told: [] };
        byLine.set(line, known);
        if (cell.said.kind === 'act' && cell.answer === 'yes' && putsDressingOn(cell.said.activity))
          known.put.push(at);
        const type = cell.said.kind === 'dressing' ? dressingIn(cell, ours) : undefined;
        if (type !== undefined) known.told.push({ at, type, ref });
      }
    }
    for (const { put, told } of byLine.values()) {
      put.sort((a, b) => a - b);
      told.sort((a, b) => a.at - b.at || (a.ref < b.ref ? -1 : 1));
    }
    this.#byLine = byLine;
    return byLine;
  }

  #assumptions(): Assumption[] {
    const texts = [...this.#texts.values()].map(({ text, as, refs }): Assumption => ({
      kind: 'text',
      text,
      as,
      refs: [...refs].sort(),
    }));
    const only = [...this.#assumed].map(([line, { patient, refs }]): Assumption => ({
      kind: 'only-line',
      line,
      patient,
      refs: [...refs].sort(),
    }));
    const lines = this.#places.charted.map(({ ref, patient, type, rows }): Assumption => {
      const cells = rows.map(({ cell }) => cell);
      const untold: Untold[] = [
        ...(cells.some(
          (cell) => lumenCountOf(cell) !== undefined || product(cell.target, 'Device.deviceName'),
        )
          ? []
          : (['lumens'] as const)),
        ...(cells.some((cell) => cell.said.kind === 'dressing' || product(cell.target, 'Procedure.usedCode'))
          ? []
          : (['dressing-type'] as const)),
        'what-runs',
      ];
      return {
        kind: 'line',
        line: ref,
        patient,
        type,
        untold,
        refs: [...new Set(rows.map((row) => row.ref))].sort(),
      };
    });
    return [...texts, ...only, ...lines];
  }
}

const takenBack = new Set(['entered-in-error', 'cancelled', 'registered']);

function isFinding(cells: readonly Cell[]): boolean {
  return cells.some(({ component, said }) => component === undefined && said.kind === 'finding');
}

/** An act whose time is charted again on every shift is one act: it goes by what was charted of it first. */
function onceEach(made: readonly Made[]): ResourceEntry[] {
  const first = new Map<string, Made & { readonly chartedAt: number }>();
  for (const one of made) {
    if (one.chartedAt === undefined) continue;
    const key = actKey(one.entry);
    const before = first.get(key);
    if (before === undefined || isBefore({ ...one, chartedAt: one.chartedAt }, before))
      first.set(key, { ...one, chartedAt: one.chartedAt });
  }
  return made
    .filter((one) => one.chartedAt === undefined || first.get(actKey(one.entry))?.entry === one.entry)
    .map(({ entry }) => entry);
}

type Charting = Made & { readonly chartedAt: number };

function isBefore(a: Charting, b: Charting): boolean {
  return (
    a.chartedAt < b.chartedAt ||
    (a.chartedAt === b.chartedAt && (a.entry.source ?? '') < (b.entry.source ?? ''))
  );
}

function actKey({ resource, source }: ResourceEntry): string {
  const { code, focalDevice, performedDateTime, performedPeriod, status } = resource as Json;
  const at = performedDateTime ?? performedPeriod;
  // Without a line or a time two may well be two.
  if (at === undefined || focalDevice === undefined) return source ?? '';
  return JSON.stringify([isObject(code) ? code['coding'] : '', focalDevice, at, status]);
}
