import { dueCareBy, FhirServer, Poller, realMachine, type Round } from '@dwellward/adapter';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { allIssues, transactionFor } from '@dwellward/core';
import { codeSystem, identifierSystem } from '@dwellward/profiles';
import type { Moment, Story } from '@dwellward/fixtures';
import type { Bundle, CodeableConcept, DetectedIssue, FhirResource, Flag, Task } from 'fhir/r4.js';
import { pino } from 'pino';
import { search } from '../interop/support.js';
import { scenesOf, type Outcome } from './play.js';
import { amountLine, compared, itemLine, missing, policyOf, targetName, type Answer } from './told.js';

const everything = 'patient=Patient/tamarisk-turnstone&_count=1000';
/** After so many moments an adapter that knows nothing yet looks at the whole patient again. */
const secondEvery = 12;

/**
 * Every moment of a story through the adapter and an embedded FHIR server, by a clock that steps from moment to moment:
 * what was charted since the last moment is written to the server, the adapter runs a round, and what stands on the
 * server has to be the story's due list, and item by item, hold by hold, issue by issue what the library answers. Then
 * nothing may be left to write: worked out from what the server holds at every moment, and at some by an adapter that
 * knows nothing of the first and reads everything again.
 * @param answers of the library, moment by moment.
 */
export async function serve(story: Story, answers: readonly Answer[]): Promise<Outcome[]> {
  const policy = policyOf(story);
  const { baseUrl, close } = await startDemoServer({ validate: false });
  let asOf = '';
  const poller = (fullEvery: number) => {
    const machine = { ...realMachine, sleep: async () => undefined };
    return new Poller({
      server: new FhirServer({ baseUrl, machine }),
      care: dueCareBy(policy, story.zone),
      machine,
      log: pino({ level: 'silent' }),
      asOf: () => asOf,
      fullEvery,
      // All of it happens within seconds; a long overlap would read everything at every round.
      overlapMs: 1_000,
      patientsAtOnce: 1,
      maxEntries: 500,
    });
  };
  const first = poller(1_000_000);
  const server = new FhirServer({ baseUrl });
  const outcomes: Outcome[] = [];
  const stored = new Map<string, Task>();
  let before = new Map<string, Task>();
  try {
    const scenes = scenesOf(story);
    for (const [at, { moment, charted }] of scenes.entries()) {
      asOf = moment.at;
      const answer = answers[at]!;
      const since = new Date(Date.now() - 1000).toISOString();
      await loadBundle(server, collection(charted));
      const round = await first.round();
      // Reading everything anew takes its time, so it is done now and then and at the end.
      const again = at % secondEvery === 0 || at === scenes.length - 1 ? await poller(1).round() : undefined;
      for (const task of await search<Task>(baseUrl, `Task?${everything}&_lastUpdated=ge${since}`)) {
        stored.set(task.id!, task);
      }
      const tasks = [...stored.values()];
      const flags = await search<Flag>(baseUrl, `Flag?${everything}`);
      const issues = await search<DetectedIssue>(baseUrl, `DetectedIssue?${everything}`);
      const when = { asOf, zone: story.zone };
      const { records, cares } = answer;
      const left = transactionFor({
        records,
        cares,
        policy,
        when,
        existing: [...tasks, ...flags, ...issues],
      });
      outcomes.push({
        moment,
        differences: [
          ...(round.failed > 0 ? ['the adapter could not bring the patient in step'] : []),
          ...(left?.entry ?? []).map(
            ({ request, resource }) => `a second run would ${request?.method} ${resource?.resourceType}`,
          ),
          ...(again ? written(again) : []),
          ...ofTasks(story, moment, tasks, answer),
          ...ofClosed(story, moment, tasks, before, answer),
          ...ofFlags(story, moment, flags, answer),
          ...ofIssues(issues, answer),
        ],
      });
      before = new Map(stored);
    }
  } finally {
    await close();
  }
  return outcomes;
}

/** What a round wrote where nothing was left to write. */
function written({ failed, written: { created, updated, deleted } }: Round): string[] {
  return failed + created + updated + deleted === 0
    ? []
    : [`a second run wrote: ${created} created, ${updated} updated, ${deleted} deleted; ${failed} failed`];
}

function collection(resources: readonly FhirResource[]): Bundle<FhirResource> {
  return { resourceType: 'Bundle', type: 'collection', entry: resources.map((resource) => ({ resource })) };
}

/** The open Tasks against the story's due list and against the items of the library. */
function ofTasks(
  story: Story,
  { dueList, next, amounts }: Moment,
  tasks: readonly Task[],
  { cares }: Answer,
): string[] {
  const open = tasks.filter(({ status }) => status === 'requested');
  const lines = open.map((task) => {
    const { end = '' } = task.restriction?.period ?? {};
    const state = stateOf(task);
    return {
      upcoming: state === 'upcoming',
      line: itemLine(state, activityOf(task), focusOf(story, task), end),
    };
  });
  const carried = open.flatMap((task) =>
    (task.input ?? []).flatMap(({ type, valueQuantity }) =>
      valueQuantity
        ? [
            amountLine(
              activityOf(task),
              focusOf(story, task),
              codesOf(codeSystem.taskInput, type)[0] ?? '',
              valueQuantity.value,
              valueQuantity.unit,
            ),
          ]
        : [],
    ),
  );
  return [
    ...compared(
      'Tasks on the server',
      dueList,
      lines.filter(({ upcoming }) => !upcoming).map(({ line }) => line),
    ),
    ...missing(
      'Tasks to come',
      next,
      lines.map(({ line }) => line),
    ),
    ...missing('amounts of Tasks', amounts, carried),
    ...compared(
      'Tasks against the library',
      cares
        .flatMap(({ items }) => items)
        .map(({ id, opens, dueBy, state }) => `${id} ${opens} ${dueBy} ${state}`),
      open.map((task) => {
        const { start, end } = task.restriction?.period ?? {};
        return `${identity(task, identifierSystem.dueItem)} ${start} ${end} ${stateOf(task)}`;
      }),
    ),
  ];
}

/** How far its care is, as the Task itself says. */
function stateOf({ businessStatus }: Task): string {
  return codesOf(codeSystem.dueState, businessStatus).join();
}

/** The Tasks that were closed since the moment before: done by an event of theirs, or cancelled as the story says. */
function ofClosed(
  story: Story,
  moment: Moment,
  tasks: readonly Task[],
  before: ReadonlyMap<string, Task>,
  { cares }: Answer,
): string[] {
  const changed = tasks.filter(({ id, status }) => before.get(id!)?.status !== status);
  const cancelled = changed
    .filter(({ status }) => status === 'cancelled')
    .map((task) => {
      const [reason = 'no reason'] = codesOf(codeSystem.closingReason, task.statusReason);
      return `${activityOf(task)} | ${focusOf(story, task)} | ${reason}`;
    });
  const met = cares.flatMap((care) => care.met);
  const completed = tasks
    .filter(({ status }) => status === 'completed')
    .flatMap((task) => {
      const id = identity(task, identifierSystem.dueItem) ?? '';
      const by = met.find((one) => one.id === id || one.otherIds?.includes(id));
      const output = task.output?.find(({ type }) => codesOf(codeSystem.taskOutput, type).includes('met-by'));
      const is = `${activityOf(task)} ${output?.valueReference?.reference} ${task.executionPeriod?.end}`;
      const refs = by ? [by.by, ...(by.twins ?? [])] : [];
      const right = refs.map((ref) => `${by?.activity} ${ref} ${by?.at}`);
      return right.includes(is)
        ? []
        : [`completed Task: ${is}, of the library: ${right.join(' or ') || 'none'}`];
    });
  const other = tasks.filter(({ status }) => !['requested', 'completed', 'cancelled'].includes(status));
  return [
    ...compared('cancelled Tasks', moment.cancelled ?? [], cancelled),
    ...completed,
    ...other.map(({ id, status }) => `Task/${id} is ${status}`),
  ];
}

/** The Flags of holds against the library, those of lumens against the story's warnings as well. */
function ofFlags(story: Story, { warnings }: Moment, flags: readonly Flag[], { cares }: Answer): string[] {
  const active = flags.filter(({ status }) => status === 'active');
  const of = (system: string) => active.filter((flag) => identity(flag, system) !== undefined);
  const lumens = of(identifierSystem.lumenWarning);
  return [
    ...compared(
      'Flags against the library',
      cares.flatMap(({ holds }) => holds).map(({ id, from, until }) => `${id} ${from} ${until ?? 'open'}`),
      of(identifierSystem.hold).map(
        (flag) =>
          `${identity(flag, identifierSystem.hold)} ${flag.period?.start} ${flag.period?.end ?? 'open'}`,
      ),
    ),
    ...compared(
      'Flags of lumens',
      warnings.filter((line) => !line.includes('/')),
      lumens.map(({ code, extension }) => {
        const device = extension?.map(({ valueReference }) => valueReference?.reference ?? '')[0] ?? '';
        return `${codesOf(codeSystem.lumenState, code)[0]} | ${targetName(story, 'lumen', device)}`;
      }),
    ),
    ...active
      .filter((flag) => !of(identifierSystem.hold).includes(flag) && !lumens.includes(flag))
      .map(({ id }) => `Flag/${id} has no identity of ours`),
  ];
}

function ofIssues(issues: readonly DetectedIssue[], { records, cares }: Answer): string[] {
  const told = allIssues(records, cares).map(({ code, resource, path }) => `${code} ${resource} ${path}`);
  return compared(
    'DetectedIssues against the library',
    told,
    issues
      .filter(({ status }) => status === 'final')
      .map(
        ({ code, detail }) =>
          `${codesOf(codeSystem.recordIssue, code)[0]} ${detail?.split(':')[0]?.replace(',', '')}`,
      ),
  );
}

function activityOf({ code }: Task): string {
  return codesOf(codeSystem.lineCareActivity, code)[0] ?? 'no activity';
}

function focusOf(story: Story, { focus, input }: Task): string {
  const site = input?.flatMap(({ valueCodeableConcept }) =>
    codesOf(codeSystem.lineSite, valueCodeableConcept),
  )[0];
  const device = focus?.reference ?? '';
  return site ?? targetName(story, device in story.lumens ? 'lumen' : 'line', device);
}

function identity({ identifier }: Pick<Task | Flag, 'identifier'>, system: string): string | undefined {
  return identifier?.find((one) => one.system === system)?.value;
}

function codesOf(system: string, concept: CodeableConcept | undefined): string[] {
  return (concept?.coding ?? []).flatMap((one) => (one.system === system && one.code ? [one.code] : []));
}
