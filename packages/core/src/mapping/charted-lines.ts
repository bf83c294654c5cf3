import {
  activityOfRole,
  codeSystem,
  coding,
  deviceCodes,
  displayOf,
  standard,
  type LineType,
} from '@dwellward/profiles';
import type { Ref } from '../model/basics.js';
import type { ResourceEntry } from '../model/resource-entry.js';
import { lineTypeOfTarget, momentOf, product, type Cell } from './cells.js';
import { codingsOf, objectsOf, referenceOf, textOf, type Json } from './json.js';
import { addTo } from '../model/gather.js';

/** A line or a lumen that has a Device. */
export interface KnownDevice {
  readonly ref: Ref;
  readonly patient?: Ref;
  readonly parent?: Ref;
  readonly type?: LineType;
  readonly name?: string;
}

/** A cell with whose it is and the stay that it was charted in. */
export interface Row {
  readonly cell: Cell;
  /** The Observation. */
  readonly ref: Ref;
  readonly patient?: Ref;
  readonly encounter?: Ref;
  /** False where its status takes it back. */
  readonly valid: boolean;
}

/** The devices of the record that are lines or lumens, as far as their own codes say. */
export function knownDevice(device: Json, ref: Ref, nameOf: (reference: string) => Ref): KnownDevice {
  const codings = codingsOf(device['type']);
  const own = codings.find(({ system }) => system === codeSystem.lineType)?.['code'];
  const type =
    textOf(own) ??
    codings
      .filter(({ system }) => system === standard.snomed)
      .flatMap(({ code }) => deviceCodes.get(String(code))?.type ?? [])[0];
  const patient = referenceOf(device['patient']);
  const parent = referenceOf(device['parent']);
  const name = textOf(objectsOf(device['deviceName'])[0]?.['name']);
  return {
    ref,
    ...(patient === undefined ? {} : { patient: nameOf(patient) }),
    ...(parent === undefined ? {} : { parent: nameOf(parent) }),
    ...(type === undefined || type === 'lumen' ? {} : { type: type as LineType }),
    ...(name === undefined ? {} : { name }),
  };
}

/** The rows of one line: those of one stay, type and number. */
export interface Group {
  readonly name: Ref;
  readonly patient: Ref;
  readonly encounter?: Ref;
  readonly type: LineType;
  readonly rows: Row[];
}

/** The group of a row, by what the map says of its line; undefined where it says nothing. */
export function groupNameOf({ cell, patient, encounter }: Row): Ref | undefined {
  const type = lineTypeOfTarget(cell.target);
  const stay = encounter ?? patient;
  if (type === undefined || stay === undefined || patient === undefined) return undefined;
  const number = product(cell.target, 'Device.identifier');
  return `${stay}#${type}${number === undefined ? '' : `-${slug(number)}`}`;
}

/** A line that was worked out from the rows of a chart: it goes by the stay, and keeps its name when rows are added. */
export interface ChartedLine {
  readonly ref: Ref;
  readonly patient: Ref;
  readonly type: LineType;
  readonly encounter?: Ref;
  readonly rows: readonly Row[];
}

const removal = activityOfRole('ends-line');
const insertion = activityOfRole('begins-line');

/**
 * The lines of a group, one after the other: a removal or an exchange ends one, and what is charted after it is of the next.
 * The first has the name of the group; a further one that of the moment it follows, so that no row that is added moves it.
 */
export class GroupLines {
  readonly #ends: readonly number[];
  readonly #rows = new Map<Ref, Row[]>();

  constructor(readonly group: Group) {
    const ends = group.rows.flatMap(({ cell, valid }) => {
      const ended =
        cell.said.kind === 'exchange' || (cell.said.kind === 'act' && cell.said.activity === removal);
      return ended && valid && cell.answer === 'yes' ? (momentOf(cell.time) ?? []) : [];
    });
    this.#ends = [...new Set(ends)].sort((a, b) => a - b);
    for (const row of group.rows) {
      const ref = this.lineOf(row);
      addTo(this.#rows, ref, row);
      // What was put in by it is a line, also where nothing is charted of it yet.
      if (row.cell.said.kind === 'exchange' && row.valid && row.cell.answer === 'yes') {
        const next = this.lineOf(row, true);
        addTo(this.#rows, next, row);
      }
    }
  }

  /** The line that a row is of; `begins` asks for the one that begins with it. */
  lineOf({ cell }: Row, begins = cell.said.kind === 'act' && cell.said.activity === insertion): Ref {
    const at = momentOf(cell.time);
    const before = this.#ends.filter((end) => at === undefined || (begins ? end <= at : end < at)).at(-1);
    return before === undefined ? this.group.name : `${this.group.name}-after-${before}`;
  }

  lines(): ChartedLine[] {
    const { patient, type, encounter } = this.group;
    return [...this.#rows].map(([ref, rows]) => ({
      ref,
      patient,
      type,
      rows,
      ...(encounter === undefined ? {} : { encounter }),
    }));
  }
}

/** The Devices of a line that was worked out: its own, and one for each lumen that a row names. */
export function devicesOf({ ref, patient, type, rows }: ChartedLine): ResourceEntry[] {
  const whose = { patient: { reference: patient } };
  const count = rows.flatMap(({ cell }) => lumenCountOf(cell) ?? []).sort((a, b) => b - a)[0];
  const line: ResourceEntry = {
    source: ref,
    resource: {
      resourceType: 'Device',
      id: 'line',
      status: 'active',
      type: { coding: [coding('lineType', type)], text: displayOf('lineType', type) },
      ...whose,
      ...(count === undefined
        ? {}
        : {
            property: [
              {
                type: { coding: [coding('lineProperty', 'lumen-count')] },
                valueQuantity: [{ value: count, unit: '1' }],
              },
            ],
          }),
    },
  };
  const names = [
    ...new Set(rows.flatMap(({ cell }) => product(cell.target, 'Device.deviceName') ?? [])),
  ].sort();
  const lumens = names.map((name): ResourceEntry => ({
    source: lumenOf(ref, name),
    resource: {
      resourceType: 'Device',
      id: 'lumen',
      status: 'active',
      type: { coding: [coding('lineType', 'lumen')] },
      parent: { reference: ref },
      deviceName: [{ name, type: 'user-friendly-name' }],
      ...whose,
    },
  }));
  return [line, ...lumens];
}

/** How many lumens a row says that its line has. */
export function lumenCountOf({ target }: Cell): number | undefined {
  const [name, amount] = product(target, 'Device.property')?.split('=') ?? [];
  return name === 'lumen-count' ? Number(amount) : undefined;
}

/** The name of a lumen of a line that was worked out. */
export function lumenOf(line: Ref, name: string): Ref {
  return `${line}.${slug(name)}`;
}

function slug(text: string): string {
  return text.toLowerCase().replace(/[^a-z0-9]+/g, '-');
}
