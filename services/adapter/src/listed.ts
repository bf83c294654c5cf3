import type { Group, List } from 'fhir/r4.js';
import type { FhirServer } from './fhir-server/index.js';
import { idIn } from './references.js';
import { rereadFile } from './reread-file.js';

/** A list of patients that can’t be read: nobody can be looked at by it. */
export class UnreadableList extends Error {
  override readonly name = 'UnreadableList';
  readonly code = 'list-unreadable';
}

/** The ids of the patients to look at, read anew every time. @throws UnreadableList, or FhirServerError. */
export type Listed = () => Promise<ReadonlySet<string>>;

/** Patients are looked for by their lines. */
export const allPatients = 'all';

/**
 * The patients of a Group or a List of the server (`Group/12`), or of a file of ids, one a line, with or without
 * `Patient/`: for a server that takes no search without a patient. Undefined where they are to be looked for.
 * @throws nothing; what can’t be read is thrown when it is asked for.
 */
export function listedPatients(source: string, server: FhirServer): Listed | undefined {
  if (source === allPatients) return undefined;
  const [, type, id] = /^(Group|List)\/([A-Za-z0-9\-.]{1,64})$/.exec(source) ?? [];
  return type === undefined || id === undefined
    ? ofFile(source)
    : ofResource(server, type as 'Group' | 'List', id);
}

function ofResource(server: FhirServer, type: 'Group' | 'List', id: string): Listed {
  return async () => {
    const found = await server.read(type, id);
    if (found === undefined) throw new UnreadableList(`${type}/${id} is not on the server.`);
    const members = type === 'Group' ? membersOf(found as Group) : entriesOf(found as List);
    const ids = members.map((reference) => ({ reference, id: idIn(reference, 'Patient', server.baseUrl) }));
    const others = ids
      .filter((one) => one.id === undefined)
      .map(({ reference }) => reference ?? 'no reference');
    // Whoever is meant by it would be looked at by nobody, and nobody would know.
    if (others.length > 0)
      throw new UnreadableList(
        `${type}/${id} names what is no patient of the server: ${others.slice(0, 5).join(', ')}.`,
      );
    return new Set(ids.flatMap((one) => one.id ?? []));
  };
}

function membersOf({ member = [] }: Group) {
  return member
    .filter(({ inactive, period }) => inactive !== true && period?.end === undefined)
    .map(({ entity }) => entity?.reference);
}

function entriesOf({ entry = [] }: List) {
  return entry.filter(({ deleted }) => deleted !== true).map(({ item }) => item?.reference);
}

function ofFile(path: string): Listed {
  const read = rereadFile(path, (text) => {
    const lines = text.split(/\r?\n/).map((line) => line.trim());
    return new Set(
      lines.filter((line) => line !== '' && !line.startsWith('#')).map((line, at) => idOf(line, at, path)),
    );
  });
  return async () => {
    try {
      return await read();
    } catch (error) {
      if (error instanceof UnreadableList) throw error;
      throw new UnreadableList(`The list of patients ${path} can’t be read.`, { cause: error });
    }
  };
}

function idOf(line: string, at: number, path: string): string {
  const [, id] = /^(?:Patient\/)?([A-Za-z0-9\-.]{1,64})$/.exec(line) ?? [];
  if (id === undefined) throw new UnreadableList(`${path}: entry ${at + 1} is no id of a patient.`);
  return id;
}
