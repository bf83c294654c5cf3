import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { startDemoServer } from '@dwellward/demo-server';
import { loadBundle } from '@dwellward/demo-server';
import { demoUnit } from '@dwellward/fixtures';
import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { isEnough, triedText, tryServer } from './check-server.js';
import { readConfig } from './config.js';
import { FhirServer } from './fhir-server/index.js';
import { main } from './main.js';

let demo: Awaited<ReturnType<typeof startDemoServer>>;
let between: Server | undefined;
const methods: string[] = [];
beforeAll(async () => {
  demo = await startDemoServer();
  await loadBundle(new FhirServer({ baseUrl: demo.baseUrl }), demoUnit());
});
afterAll(() => demo.close());
afterEach(() => {
  between?.close();
  between?.closeAllConnections();
  between = undefined;
  methods.length = 0;
});

type Change = (
  path: string,
  body: { [key: string]: unknown },
) => { status?: number; body?: unknown } | undefined;

/** The demo server as another maker’s: some of its answers are changed. */
async function changed(change: Change): Promise<string> {
  between = createServer((incoming, response) => {
    methods.push(incoming.method ?? '');
    void (async () => {
      const path = (incoming.url ?? '').replace('/fhir', '');
      const answer = await fetch(`${demo.baseUrl}${path}`, { headers: { accept: 'application/fhir+json' } });
      const text = (await answer.text()).replaceAll(demo.baseUrl, base);
      const other = change(path, JSON.parse(text) as { [key: string]: unknown });
      response.writeHead(other?.status ?? answer.status, { 'content-type': 'application/fhir+json' });
      response.end(other?.body === undefined ? text : JSON.stringify(other.body));
    })();
  });
  await new Promise<void>((done) => between?.listen(0, '127.0.0.1', done));
  const base = `http://127.0.0.1:${(between.address() as AddressInfo).port}/fhir`;
  return base;
}

const tried = async (baseUrl: string, more: Record<string, string> = {}) => {
  const config = readConfig({ DWELLWARD_FHIR_URL: baseUrl, DWELLWARD_ZONE: 'Europe/Berlin', ...more });
  const server = new FhirServer({ baseUrl, retry: { maxAttempts: 1 } });
  const all = await tryServer(server, { config, log: pino({ level: 'silent' }) });
  return { text: triedText(all), enough: isEnough(all) };
};

describe('what a server can', () => {
  it('is told of one that can all of it, and nothing is written', async () => {
    const { text, enough } = await tried(await changed(() => undefined));
    expect(enough).toBe(true);
    expect(text).toMatch(/^can {4}FHIR 4\.0\.1$/m);
    expect(text).toMatch(/^can {4}search for Observation by what has changed$/m);
    expect(text).toMatch(/patients with a line, or who are to have one: 16$/m);
    expect(new Set(methods)).toEqual(new Set(['GET']));
  });

  it('is not enough where a needed search is refused; that stands first', async () => {
    const { text, enough } = await tried(
      await changed((path) =>
        path.startsWith('/Procedure?patient')
          ? { status: 400, body: { resourceType: 'OperationOutcome' } }
          : undefined,
      ),
    );
    expect(enough).toBe(false);
    expect(text.split('\n')[0]).toBe('can’t  search for Procedure by patient, which is needed (refused 400)');
  });

  it('is enough without a type only where the settings say so; how is told', async () => {
    const lacking: Change = (path) =>
      path.startsWith('/Appointment')
        ? { status: 404, body: { resourceType: 'OperationOutcome' } }
        : undefined;
    const { text, enough } = await tried(await changed(lacking));
    expect(enough).toBe(false);
    expect(text).toMatch(
      /^can’t {2}search for Appointment by patient, which is needed \(refused 404; without it: DWELLWARD_WITHOUT=Appointment\)$/m,
    );
    between?.close();
    const without = await tried(await changed(lacking), { DWELLWARD_WITHOUT: 'Appointment' });
    expect(without.enough).toBe(true);
    expect(without.text).not.toMatch(/Appointment/);
  });

  it('is not taken from an answer that heeds no parameter', async () => {
    const { text, enough } = await tried(
      await changed((path, body) =>
        path.startsWith('/Device?patient')
          ? { body: { ...body, entry: [{ resource: { resourceType: 'Device', id: '1' } }] } }
          : undefined,
      ),
    );
    expect(enough).toBe(false);
    expect(text).toMatch(
      /search for Device by patient, which is needed \(it gives 1 where nothing is asked for/,
    );
  });

  it('is as it states it, where only a write shows it', async () => {
    const said = (more: object) =>
      changed((path, body) => {
        if (path !== '/metadata') return undefined;
        const types = ['Task', 'Flag', 'DetectedIssue', 'Provenance'];
        const own = { interaction: [{ code: 'create' }, { code: 'update' }], ...more };
        const resource = types.map((type) => ({ type, ...(type === 'Task' ? own : {}) }));
        return { body: { ...body, rest: [{ mode: 'server', resource, interaction: [{ code: 'batch' }] }] } };
      });
    const { text } = await tried(await said({ conditionalCreate: false, versioning: 'no-version' }));
    expect(text).toMatch(/^can’t {2}transactions \(without them/m);
    expect(text).toMatch(/^can’t {2}conditional create/m);
    expect(text).toMatch(/^can’t {2}versions/m);
    between?.close();
    const silent = await tried(await said({ conditionalCreate: undefined, interaction: [] }));
    expect(silent.text).toMatch(/^unsaid conditional create/m);
    expect(silent.text).toMatch(/^unsaid create Tasks/m);
    expect(silent.enough).toBe(true);
  });
});

describe('the command', () => {
  const run = async (args: readonly string[], baseUrl = demo.baseUrl) => {
    const printed: string[] = [];
    const exit = await main(args, {
      environment: {
        ...{ DWELLWARD_FHIR_URL: baseUrl, DWELLWARD_ZONE: 'Europe/Berlin', DWELLWARD_LOG_LEVEL: 'silent' },
      },
      print: (text) => void printed.push(text),
      printError: (text) => void printed.push(text),
      interrupted: Promise.resolve(),
    });
    return { exit, text: printed.join('\n') };
  };
  const tasks = async () => {
    const response = await fetch(`${demo.baseUrl}/Task?_count=1000`);
    return ((await response.json()) as { entry?: unknown[] }).entry?.length ?? 0;
  };

  it('--check ends with 0 where it can, and with 1 where nobody answers', async () => {
    expect((await run(['--check'])).exit).toBe(0);
    expect(await run(['--check'], 'http://127.0.0.1:9/fhir')).toMatchObject({ exit: 1 });
  });

  it('--dry-run tells what would be written, writes nothing, and has nothing to tell afterwards', async () => {
    const first = await run(['--dry-run']);
    expect(first.text).toMatch(
      /^create Task requested dressing-change on Device\/[a-z-]+ of Patient\/[a-z-]+ by 20/m,
    );
    expect(first.text).toMatch(/^\d{2,} resources would be written for 16 patients\. Nothing was\.$/m);
    expect(first.text).not.toMatch(/Spindle|Wagtail/);
    expect([first.exit, await tasks()]).toEqual([0, 0]);
    expect((await run(['--once'])).exit).toBe(0);
    const written = await tasks();
    const again = await run(['--dry-run']);
    expect(again.text).toMatch(/^0 resources would be written/m);
    expect(await tasks()).toBe(written);
  });
});
