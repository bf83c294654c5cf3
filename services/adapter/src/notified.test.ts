import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import express from 'express';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { realMachine, type Machine } from './machine.js';
import { notified, Wake } from './notified.js';
import type { Poller } from './poll.js';
import { runRounds } from './rounds.js';

const token = 'a-token-of-at-least-thirty-two-letters';
const never = new AbortController().signal;

/** A machine on which no time passes: it tells how long it was asked to wait, and waits only for signals. */
function still() {
  const slept: number[] = [];
  const machine: Machine = {
    ...realMachine,
    sleep: (ms, signal) => {
      slept.push(ms);
      if (ms <= 1_000 || signal?.aborted) return Promise.resolve();
      return new Promise((done) => signal?.addEventListener('abort', () => done(), { once: true }));
    },
  };
  return { slept, machine };
}

describe('the pause between two rounds', () => {
  it('ends when it is rung, after the burst, and the next is whole again', async () => {
    const { slept, machine } = still();
    const wake = new Wake();
    const first = wake.pause(30_000, machine, never);
    wake.ring();
    wake.ring();
    await first;
    expect(slept).toEqual([30_000, 1_000]);
    const stop = new AbortController();
    const second = wake.pause(30_000, machine, stop.signal);
    stop.abort();
    await second;
    expect(slept).toEqual([30_000, 1_000, 30_000]);
  });

  it('is none where it was rung during the round', async () => {
    const { slept, machine } = still();
    const wake = new Wake();
    wake.ring();
    await wake.pause(30_000, machine, never);
    expect(slept).toEqual([30_000, 1_000]);
  });

  it('is not cut short while the server asks to be left alone', async () => {
    const { slept, machine } = still();
    const wake = new Wake();
    const drain = new AbortController();
    let rounds = 0;
    const poller = {
      round: () => {
        rounds += 1;
        wake.ring();
        return Promise.resolve();
      },
      status: { closedForMs: 90_000 },
    } as unknown as Poller;
    const running = runRounds(poller, 30_000, machine, drain.signal, wake);
    await new Promise((done) => setTimeout(done, 20));
    expect([rounds, slept]).toEqual([1, [90_000]]);
    drain.abort();
    await running;
  });
});

describe('what a server sends', () => {
  let server: Server;
  let base: string;
  let rung = 0;
  beforeEach(async () => {
    rung = 0;
    const app = express();
    app.use('/notified', notified(token, { ring: () => void (rung += 1) } as Wake));
    app.use((_request, response) => void response.status(404).end());
    server = createServer(app);
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
    base = `http://127.0.0.1:${(server.address() as AddressInfo).port}/notified`;
  });
  afterEach(() => void server.close());

  it.each([
    ['POST', token, undefined],
    ['POST', token, '{"resourceType":"Bundle","type":"history"}'],
    ['PUT', `${token}/Procedure/12`, '{"resourceType":"Procedure","id":"12"}'],
    ['POST', token, 'this is no JSON'],
  ])('rings: %s %s %s', async (method, path, body) => {
    const response = await fetch(`${base}/${path}`, { method, ...(body === undefined ? {} : { body }) });
    expect([response.status, rung]).toEqual([200, 1]);
  });

  it.each([
    ['POST', 'another-token-of-at-least-thirty-two', 404],
    ['POST', '', 404],
    // A server that tries whether somebody is there changes nothing.
    ['GET', token, 200],
  ])('does not ring: %s %s', async (method, path, status) => {
    const response = await fetch(`${base}/${path}`, { method });
    expect([response.status, rung]).toEqual([status, 0]);
  });
});
