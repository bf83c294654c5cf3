import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  dueCareOfEach,
  dueResources,
  readRecords,
  safeJson,
  type AsOf,
  type ReadOptions,
  type Records,
  type ResourceEntry,
} from '@dwellward/core';
import type { Policy } from '@dwellward/policy';
import { placesUnread, reportUnreadable, whenOf, type CareValues } from '../commands/care.js';
import { CliError, type exitCodes } from '../errors.js';
import { entriesOfLine, inputLines } from '../input.js';
import { eachLine } from '../text.js';
import type { Io } from '../io.js';
import { loadPolicy, reportNotInForce } from '../policies.js';
import { readOptions } from '../record.js';
import { Kinds } from './kinds.js';
import { loose, referencesIn, Router } from './route.js';
import { Skim } from './skim.js';
import { Spool, type Kept } from './spool.js';

// So many that one of an export of a hospital fits in memory many times over, so few that the files may all be open.
const partitions = 256;
const progressEvery = 20_000;
// On the error stream; the output has every one as a DetectedIssue.
const mostUnread = 1000;

export interface StreamValues extends CareValues {
  readonly work?: string | undefined;
}

/** Due care of NDJSON of any size, a resource a line; the same as of all of it read at once. */
export async function dueStream(
  path: string | undefined,
  values: StreamValues,
  io: Io,
): Promise<keyof typeof exitCodes> {
  if (path === undefined)
    throw new CliError('usage', 'No input: give a folder or a file of NDJSON, or - for standard input.');
  if (path.toLowerCase().endsWith('.json'))
    throw new CliError(
      'usage',
      `${path}: --format ndjson reads NDJSON, a resource a line; a Bundle is read by --format fhir.`,
    );
  const when = whenOf(values, io);
  const policy = await loadPolicy(values.policy ?? [], values, io);
  reportNotInForce(policy, when, io);
  const options = await readOptions(values, io);
  const spool = new Spool(mkdtempSync(join(values.work ?? tmpdir(), 'dwellward-')));
  const close = () => spool.close();
  // Nothing of any patient is left behind by whoever stops it.
  const stop = () => process.exit(130);
  process.once('exit', close).once('SIGINT', stop).once('SIGTERM', stop);
  try {
    return await new Run(spool, policy, when, options, io).all(path);
  } finally {
    process.off('exit', close).off('SIGINT', stop).off('SIGTERM', stop);
    close();
  }
}

class Run {
  readonly #router: Router;
  readonly #kinds = new Kinds();
  readonly #unread: string[] = [];
  readonly #written = new Set<string>();
  #unreadCount = 0;
  #lines = 0;

  constructor(
    readonly spool: Spool,
    readonly policy: Policy,
    readonly when: AsOf,
    readonly options: ReadOptions,
    readonly io: Io,
  ) {
    this.#router = new Router(spool, partitions, new Skim(options));
  }

  async all(path: string): Promise<keyof typeof exitCodes> {
    const missing = await this.#sort(path);
    if (this.#router.resources === 0)
      throw new CliError('unreadable-input', `No line of ${path} could be read as a FHIR resource.`);
    this.#router.settle();
    for (const entry of missing) await this.#write([entry], true);
    for (const kept of this.spool.take(loose)) await this.#write(entriesOf(kept), true);
    for (const kept of this.#router.shared.values()) await this.#write(kept.flatMap(entriesOf), true);
    const began = Date.now();
    for (let i = 0; i < partitions; i++) {
      await this.#partition(String(i));
      if (this.io.progress) {
        const left = ((Date.now() - began) / (i + 1)) * (partitions - i - 1);
        this.io.warn(
          `\rpart ${i + 1} of ${partitions}, ${Math.ceil(left / 1000)} s left${i + 1 === partitions ? '\n' : '   '}`,
        );
      }
    }
    const kinds: Records = {
      lines: [],
      issues: [],
      notUnderstood: this.#kinds.all(),
      otherBusiness: [],
      unitStays: [],
    };
    await this.#put(dueResources(kinds, [], this.policy, this.when), false);
    return this.#report(kinds);
  }

  async #sort(path: string): Promise<ResourceEntry[]> {
    const missing: ResourceEntry[] = [];
    const began = Date.now();
    let count = 0;
    for await (const one of inputLines(path, this.io)) {
      if (!('bytes' in one)) {
        missing.push(one);
        continue;
      }
      const { bytes, name, first } = one;
      let number = first;
      eachLine(bytes, (from, to) => this.#router.route(bytes, from, to, name, number++));
      const before = count;
      count += number - first;
      if (this.io.progress && Math.floor(count / progressEvery) > Math.floor(before / progressEvery)) {
        const rate = Math.round((count / Math.max(1, Date.now() - began)) * 1000);
        this.io.warn(`\r${count} lines read, ${rate} a second   `);
      }
    }
    if (this.io.progress && count >= progressEvery) this.io.warn('\n');
    return missing;
  }

  async #partition(name: string): Promise<void> {
    const groups = new Map<string, Kept[]>();
    for (const kept of this.spool.take(name)) {
      const group = this.#router.owners.groupOf(kept.key);
      const own = groups.get(group);
      if (own === undefined) groups.set(group, [kept]);
      else own.push(kept);
    }
    for (const group of [...groups.keys()].sort()) {
      const entries = (groups.get(group) ?? []).flatMap(entriesOf);
      await this.#write([...entries, ...this.#sharedOf(entries)], false);
    }
  }

  /** What the resources point to and is of no patient, also over others of that kind: a bed, its room, its ward. */
  #sharedOf(entries: readonly ResourceEntry[]): ResourceEntry[] {
    if (this.#router.shared.size === 0) return [];
    const seen = new Set<string>();
    const found: ResourceEntry[] = [];
    const open = [...entries];
    for (let at = open.pop(); at !== undefined; at = open.pop()) {
      if (typeof at.resource !== 'object' || at.resource === null) continue;
      for (const name of referencesIn(at.resource)) {
        if (seen.has(name)) continue;
        seen.add(name);
        const more = (this.#router.shared.get(name) ?? []).flatMap(entriesOf);
        found.push(...more);
        open.push(...more);
      }
    }
    return found;
  }

  async #write(entries: readonly ResourceEntry[], alone: boolean): Promise<void> {
    const records = readRecords(entries, { ...this.options, linesElsewhere: true });
    const cares = dueCareOfEach(records.lines, this.policy, this.when);
    this.#lines += records.lines.length;
    // What stands by itself is counted there, and not once more with everybody who points to it.
    const own = records.notUnderstood.filter(
      ({ patients }) => alone || patients.some(({ patient }) => patient),
    );
    this.#kinds.add(own);
    const plain = { ...records, notUnderstood: [] };
    const here = placesUnread(plain, cares);
    this.#unreadCount += here.length;
    for (const one of here) if (this.#unread.length < mostUnread) this.#unread.push(one);
    await this.#put(dueResources(plain, cares, this.policy, this.when), true);
  }

  async #put(resources: ReturnType<typeof dueResources>, mayRepeat: boolean): Promise<void> {
    const lines = resources.flatMap((resource) => {
      // An issue of a Location is found with each patient who lies there.
      if (mayRepeat && resource.resourceType === 'DetectedIssue' && resource.patient === undefined) {
        if (this.#written.has(resource.id ?? '')) return [];
        this.#written.add(resource.id ?? '');
      }
      return [`${safeJson(JSON.stringify(resource))}\n`];
    });
    if (lines.length === 0) return;
    this.io.write(lines.join(''));
    await this.io.drained?.();
  }

  #report(kinds: Records): keyof typeof exitCodes {
    const passed = [...this.#router.passedOver].sort(([a], [b]) => (a < b ? -1 : 1));
    if (passed.length > 0)
      this.io.warn(
        `Passed over, since nothing of a line stands in them: ${passed.map(([type, count]) => `${count} ${type}`).join(', ')}.\n`,
      );
    const none = this.#lines === 0 ? ['No line was found in all of the input.'] : [];
    const more = this.#unreadCount - this.#unread.length;
    const said = placesUnread({ ...kinds, otherBusiness: [] }, [], false);
    return reportUnreadable(
      [
        ...new Set([
          ...this.#unread,
          ...(more > 0 ? [`and ${more} more: the DetectedIssues have all of them`] : []),
        ]),
        ...none,
        ...said,
      ],
      this.io,
    );
  }
}

function entriesOf({ line, name, number }: Kept): ResourceEntry[] {
  return entriesOfLine(line, name, number);
}
