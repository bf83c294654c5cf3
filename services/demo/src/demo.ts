import {
  dueCareBy,
  FhirServer,
  loadPolicy,
  makePoller,
  readConfig,
  realMachine,
  recordsOfAll,
  startService,
  type Computed,
  type Round,
  type ServiceOptions,
} from '@dwellward/adapter';
import { startBoard } from '@dwellward/board';
import { readRecords, renderTable, type AsOf } from '@dwellward/core';
import { figuresView, unitFigures } from '@dwellward/figures';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import {
  demoInstant,
  demoMinutes,
  demoPolicyLayers,
  demoUnit,
  demoUpdate,
  demoUpdateInstant,
  demoZone,
  inventedYear,
  organismLists,
  yearPeriod,
} from '@dwellward/fixtures';
import { pino } from 'pino';
import { changesBetween, clockIn, type UnitCare } from './changes.js';

export interface DemoOptions {
  readonly print: (text: string) => void;
  readonly colour: boolean;
  /** Columns of the terminal; 0 where the output is not one. */
  readonly columns: number;
  /** Keep server, adapter and board running until `interrupted`. */
  readonly serve: boolean;
  /** Where the board listens; 0 takes a free one. */
  readonly port?: number;
  readonly interrupted: Promise<void>;
}

/** Upcoming care is shown where it opens within so many hours: a shift and the hand-over to the next. */
const upcomingWithinHours = 12;

/**
 * The demonstration: an embedded FHIR server with an invented unit, the adapter over it at one fixed instant, the
 * unit’s due care, then an hour later with a new neutrophil count and a dressing change.
 * @returns the exit code: 0, or 1 where a patient could not be brought in step or a second run wrote something.
 */
export async function runDemo({
  print,
  colour,
  columns,
  serve,
  port = 0,
  interrupted,
}: DemoOptions): Promise<number> {
  const demo = await startDemoServer();
  try {
    const server = new FhirServer({ baseUrl: demo.baseUrl });
    const config = readConfig({
      DWELLWARD_FHIR_URL: demo.baseUrl,
      DWELLWARD_ZONE: demoZone,
      DWELLWARD_POLICY: demoPolicyLayers.join(','),
      DWELLWARD_PORT: '0',
      DWELLWARD_POLL_SECONDS: '5',
    });
    const policy = await loadPolicy(config.policy);
    const computed = new Map<string, Computed>();
    let asOf: string = demoInstant;
    const log = pino({ level: 'error', base: null });
    const care = dueCareBy(policy, demoZone, (patient, one) => void computed.set(patient, one));
    const service: ServiceOptions = { config, policy, machine: realMachine, log, care, asOf: () => asOf };
    const never = new AbortController().signal;
    // A poller of its own for every look, so that each reads everything from the server as a fresh process would.
    const look = () => makePoller(service, { drain: never, stop: never }).round();
    const table = (when: AsOf) => tableOf(computed, when, { colour, columns, upcomingWithinHours });
    const clock = clockIn(demoZone);

    const loaded = await loadBundle(server, demoUnit());
    print(`An invented unit, ${loaded} FHIR resources, on an embedded FHIR server at ${demo.baseUrl}`);
    const first = await look();
    print(`\n${table({ asOf, zone: demoZone })}`);
    print(`\nWritten to the server: ${writtenText(first)}.`);
    const second = await look();
    print(`A second run wrote ${count(second)} resources.`);

    const before: UnitCare = new Map(computed);
    await loadBundle(server, demoUpdate());
    asOf = demoUpdateInstant;
    const third = await look();
    print(
      `\nAn hour later, at ${clock(asOf)}, a neutrophil count and a dressing change have arrived. What changed:\n`,
    );
    for (const change of changesBetween(before, computed, demoZone)) print(`  - ${change}`);
    print(`\nWritten to the server: ${writtenText(third)}.`);
    const fourth = await look();
    print(`A second run wrote ${count(fourth)} resources.`);
    print(`\n${caution}`);

    if (serve) {
      const from = realMachine.now();
      const startMs = Date.parse(demoUpdateInstant);
      const ticking = () => new Date(startMs + realMachine.now() - from).toISOString();
      const board = { minutes: demoMinutes, figures: demoFigures };
      const running = await startService({ ...service, asOf: ticking, board });
      const page = await startBoard({ adapterUrl: running.url, port });
      print(`\nStill running, from ${clock(asOf)} on; end with Ctrl+C.`);
      print(`  the unit’s board   ${page.url}`);
      print(`  FHIR server        ${demo.baseUrl}/Task?status=requested`);
      print(`  adapter            ${running.url}/readyz`);
      await interrupted;
      await page.close();
      await running.stop();
    }
    const failed = [first, second, third, fourth].some((round) => round.failed > 0);
    return failed || count(second) > 0 || count(fourth) > 0 ? 1 : 0;
  } finally {
    await demo.close();
  }
}

const caution =
  'All of this is invented. Dwellward advises and never orders: local policy, the device’s and the drug’s own\n' +
  'instructions and the licensed clinician come first.';

/** Figures of an invented year: the unit’s own few days make none. */
function demoFigures() {
  const { from, to, zone } = yearPeriod;
  const lists = organismLists();
  const entries = inventedYear().map((resource) => ({ resource }));
  const options = {
    ...{ from, to, zone },
    organisms: { pathogens: [lists.pathogens], commensals: [lists.commensals], excluded: [] },
  };
  return Promise.resolve(figuresView(unitFigures(readRecords(entries), entries, options)));
}

function tableOf(unit: UnitCare, when: AsOf, options: Parameters<typeof renderTable>[3]): string {
  const all = [...unit.values()];
  const cares = all.flatMap(({ cares: own }) => own);
  return renderTable(recordsOfAll(all), cares, when, options);
}

function count({ written }: Round): number {
  return written.created + written.updated + written.deleted;
}

function writtenText({ written, patients, failed }: Round): string {
  const { created, updated, transactions } = written;
  const notAll = failed > 0 ? `; ${failed} of ${patients} patients could not be brought in step` : '';
  return `${created} resources created, ${updated} updated, in ${transactions} transactions for ${patients} patients${notAll}`;
}
