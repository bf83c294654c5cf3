import type { LineType } from '@dwellward/profiles';
import type { Ref } from '../model/basics.js';
import type { ResourceEntry } from '../model/resource-entry.js';
import { lineTypeOfTarget, product } from './cells.js';
import {
  GroupLines,
  devicesOf,
  groupNameOf,
  lumenOf,
  type ChartedLine,
  type Group,
  type KnownDevice,
  type Row,
} from './charted-lines.js';

/** Where a row belongs. */
export interface Placed {
  /** The line, as what is worked out names it. */
  readonly line: Ref;
  /** The lumen’s Device, or the line’s. */
  readonly device: Ref;
  /** True where it was the only line that could be meant. */
  readonly assumed: boolean;
}

/** Finds the line of every row: one with a Device that could be meant, else the one that the rows themselves tell of. */
export class Places {
  readonly #lines: readonly KnownDevice[];
  readonly #lumens: readonly KnownDevice[];
  readonly #groups = new Map<Ref, Group>();
  readonly #split = new Map<Ref, GroupLines>();

  constructor(devices: readonly KnownDevice[], rows: readonly Row[]) {
    this.#lines = devices.filter(({ type }) => type !== undefined);
    this.#lumens = devices.filter(({ type, parent }) => type === undefined && parent !== undefined);
    for (const row of rows) this.#gather(row);
    for (const [name, group] of this.#groups) this.#split.set(name, new GroupLines(group));
  }

  /** The lines that no Device stands for. */
  get charted(): ChartedLine[] {
    return [...this.#split.values()]
      .flatMap((group) => group.lines())
      .sort((a, b) => (a.ref < b.ref ? -1 : 1));
  }

  /** The Devices that stand for them. */
  get devices(): ResourceEntry[] {
    return this.charted.flatMap(devicesOf);
  }

  /** The line of a row; undefined where none, or more than one, could be meant. */
  of(row: Row, begins?: boolean): Placed | undefined {
    const type = lineTypeOfTarget(row.cell.target);
    const name = groupNameOf(row);
    const group = name === undefined ? undefined : this.#split.get(name);
    if (group) return this.#at(group.lineOf(row, begins), row, false);
    const known = this.#ofPatient(row.patient, type);
    const stay = type === undefined ? this.#groupsOf(row) : [];
    const [line, ...others] = [...known.map(({ ref }) => ref), ...stay.map((one) => one.lineOf(row, begins))];
    return line === undefined || others.length > 0 ? undefined : this.#at(line, row, true);
  }

  #gather(row: Row): void {
    const name = groupNameOf(row);
    const type = lineTypeOfTarget(row.cell.target);
    if (name === undefined || type === undefined || row.patient === undefined || !row.valid) return;
    // A cell that says no tells of no line by itself; one of a line that has a Device is of that.
    if (row.cell.said.kind === 'line' && row.cell.answer === 'no') return;
    if (this.#ofPatient(row.patient, type).length > 0) return;
    const { patient, encounter } = row;
    const group = this.#groups.get(name) ?? {
      name,
      patient,
      type,
      rows: [],
      ...(encounter === undefined ? {} : { encounter }),
    };
    group.rows.push(row);
    this.#groups.set(name, group);
  }

  #ofPatient(patient: Ref | undefined, type: LineType | undefined): readonly KnownDevice[] {
    if (patient === undefined) return [];
    return this.#lines.filter((one) => one.patient === patient && (type === undefined || one.type === type));
  }

  #groupsOf({ patient, encounter }: Row): readonly GroupLines[] {
    return [...this.#split.values()].filter(
      ({ group }) => group.patient === patient && group.encounter === encounter,
    );
  }

  #at(line: Ref, { cell }: Row, assumed: boolean): Placed {
    const lumen = product(cell.target, 'Device.deviceName');
    if (lumen === undefined) return { line, device: line, assumed };
    const known = this.#lumens.filter(({ parent, name }) => parent === line && name === lumen);
    const charted = this.#lines.every(({ ref }) => ref !== line);
    return { line, device: charted ? lumenOf(line, lumen) : (known[0]?.ref ?? line), assumed };
  }
}
