import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Express } from 'express';
import { makeDemoApp, makeRawApp } from './app.js';
import { loadDefinitions } from './medplum.js';
import { DemoRepository } from './repository.js';

/** A FHIR server that runs in this process. */
export interface RunningServer {
  /** Service base, for example `http://127.0.0.1:41234/fhir`. */
  readonly baseUrl: string;
  close(): Promise<void>;
}

/**
 * Starts the embedded demo server: a FHIR R4 server made from an independent router that keeps everything in memory.
 * It listens on loopback only and has no access control: for demonstration and tests, never for patients’ data.
 * @param options.port 0, the default, takes a free one.
 * @param options.validate refuse resources that are not valid R4 (structure and invariants); true when absent.
 */
export async function startDemoServer(
  options: { readonly port?: number; readonly validate?: boolean } = {},
): Promise<RunningServer & { readonly repository: DemoRepository }> {
  loadDefinitions();
  const repository = new DemoRepository({ validate: options.validate ?? true });
  return { ...(await listen(makeDemoApp(repository), options.port ?? 0)), repository };
}

/**
 * Starts the router without anything of ours around it, so that what it answers is independent evidence.
 * It gives one page per search and refuses transactions of more than eight entries with conditional creates.
 */
export async function startRawServer(options: { readonly port?: number } = {}): Promise<RunningServer> {
  loadDefinitions();
  return listen(makeRawApp(), options.port ?? 0);
}

/** Listens on loopback. */
export function listen(app: Express, port: number): Promise<RunningServer> {
  const server = createServer(app);
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      const { port: taken } = server.address() as AddressInfo;
      resolve({
        baseUrl: `http://127.0.0.1:${taken}/fhir`,
        close: () =>
          new Promise((done) => {
            server.close(() => done());
            server.closeAllConnections();
          }),
      });
    });
  });
}

export { loadBundle, type TakesBundles } from './load-bundle.js';
