import { main } from '@dwellward/board';
import { describe, expect, it } from 'vitest';

function outside() {
  const said: string[] = [];
  let interrupt = (): void => undefined;
  const interrupted = new Promise<void>((resolve) => (interrupt = resolve));
  const print = (text: string) => void said.push(text);
  return {
    said,
    interrupt: () => interrupt(),
    io: { environment: {}, print, printError: print, interrupted },
  };
}

describe('the board’s command', () => {
  it('serves until it is interrupted', async () => {
    const { said, interrupt, io } = outside();
    const ended = main(['--adapter', 'http://127.0.0.1:9', '--port', '0'], io);
    while (said.length === 0) await new Promise((done) => setTimeout(done, 5));
    const url = /http:\/\/127\.0\.0\.1:\d+\//.exec(said[0] ?? '')?.[0] ?? '';
    expect((await fetch(`${url}api/unit`)).status).toBe(502);
    interrupt();
    expect(await ended).toBe(0);
  });

  it.each([
    [['--port', 'x'], /--port x/],
    [['--port', '70000'], /--port 70000/],
    [['--adapter', 'ftp://elsewhere'], /ftp:\/\/elsewhere/],
    [['--odd'], /--odd/],
    [['--host', '0.0.0.0'], /go with --fhir/],
    [['--fhir', 'https://fhir.example/r4'], /--client-id and --public-url/],
    [
      ['--fhir', 'https://fhir.example/r4', '--client-id', 'x', '--public-url', 'http://board.example/'],
      /users sign in there, so https/,
    ],
    [['--adapter', 'http://adapter.example', '--adapter-token', 'file'], /tokens are sent there, so https/],
    [['--adapter', 'http://adapter.example', '--fhir', 'https://fhir.example/r4'], /tokens are sent there/],
    [['--fhir', 'fhir'], /fhir: an http or https address/],
  ])('%j can’t be used, and says why', async (args, saying) => {
    const { said, io } = outside();
    expect(await main(args, io)).toBe(2);
    expect(said.join(' ')).toMatch(saying);
  });

  it('tells of itself with examples', async () => {
    const { said, io } = outside();
    expect(await main(['--help'], io)).toBe(0);
    expect(said.join(' ')).toMatch(/Examples/);
  });
});
