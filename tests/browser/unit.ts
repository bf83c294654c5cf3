import {
  FhirServer,
  loadPolicy,
  readConfig,
  realMachine,
  startService,
  type Service,
} from '@dwellward/adapter';
import { startBoard, type RunningBoard } from '@dwellward/board';
import { loadBundle, startDemoServer } from '@dwellward/demo-server';
import { readRecords } from '@dwellward/core';
import { figuresView, unitFigures } from '@dwellward/figures';
import {
  demoInstant,
  demoPolicyLayers,
  demoUnit,
  demoZone,
  inventedYear,
  organismLists,
  yearPeriod,
} from '@dwellward/fixtures';
import type { Bundle, FhirResource } from 'fhir/r4.js';
import { pino } from 'pino';

/** A unit on an embedded FHIR server, with adapter and board over it; its clock goes on from a moment. */
export interface RunningUnit {
  readonly board: RunningBoard;
  readonly service: Service;
  readonly fhirUrl: string;
  readonly server: FhirServer;
  /** The moment by the unit’s clock. */
  now(): string;
  load(bundle: Bundle<FhirResource>): Promise<unknown>;
  /** Everything of a type that the FHIR server holds, asked of it and of nobody else. */
  held(query: string): Promise<FhirResource[]>;
  close(): Promise<void>;
}

export async function startUnit(
  unit: Bundle<FhirResource> = demoUnit(),
  startsAt: string = demoInstant,
): Promise<RunningUnit> {
  const demo = await startDemoServer();
  const server = new FhirServer({ baseUrl: demo.baseUrl });
  await loadBundle(server, unit);
  const config = readConfig({
    DWELLWARD_FHIR_URL: demo.baseUrl,
    DWELLWARD_ZONE: demoZone,
    DWELLWARD_POLICY: [...demoPolicyLayers, 'blood-sampling'].join(','),
    DWELLWARD_PORT: '0',
    DWELLWARD_POLL_SECONDS: '1',
  });
  const policy = await loadPolicy(config.policy);
  const from = realMachine.now();
  const asOf = () => new Date(Date.parse(startsAt) + realMachine.now() - from).toISOString();
  const log = pino({ level: 'silent' });
  const options = {
    config,
    policy,
    machine: realMachine,
    log,
    asOf,
    board: { minutes: { flush: 4 }, figures: yearFigures },
  };
  const service = await startService(options);
  // The board shows the unit as it is read; tests begin when all of it was.
  while (service.poller.lastRound === undefined) await new Promise((done) => setTimeout(done, 50));
  const board = await startBoard({ adapterUrl: service.url });
  return {
    board,
    service,
    server,
    fhirUrl: demo.baseUrl,
    now: asOf,
    load: (bundle) => loadBundle(server, bundle),
    async held(query) {
      const response = await fetch(`${demo.baseUrl}/${query}`);
      const found = (await response.json()) as Bundle<FhirResource>;
      return (found.entry ?? []).flatMap(({ resource }) => (resource ? [resource] : []));
    },
    async close() {
      await board.close();
      await service.stop();
      await demo.close();
    },
  };
}

/** Figures of an invented year, as a hospital makes them from a whole export. */
function yearFigures() {
  const { from, to, zone } = yearPeriod;
  const { pathogens, commensals } = organismLists();
  const entries = inventedYear().map((resource) => ({ resource }));
  const organisms = { pathogens: [pathogens], commensals: [commensals], excluded: [] };
  return Promise.resolve(
    figuresView(unitFigures(readRecords(entries), entries, { from, to, zone, organisms })),
  );
}
