import { generateKeyPairSync } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { FhirServer, FhirServerError } from '../fhir-server/index.js';
import { startLogin, type Instead, type Login } from '../testing/login.js';
import { testMachine, type TestMachine } from '../testing/machine.js';
import { NoToken } from './authorization.js';
import { readClientKeys } from './client-keys.js';
import { SmartAuthorization, type SmartOptions } from './smart.js';
import { tokenOfFile } from './token-file.js';

const clientId = 'dwellward';
const made = (kid: string) => ({
  ...generateKeyPairSync('ec', { namedCurve: 'P-384' }).privateKey.export({ format: 'jwk' }),
  kid,
});
const [first, second] = [made('one'), made('two')];

let keys: Awaited<ReturnType<typeof readClientKeys>>;
let login: Login;
let machine: TestMachine;
let lines: string[];
beforeEach(async () => {
  machine = testMachine(Date.parse('2026-11-25T12:00:00Z'));
  keys = await readClientKeys(JSON.stringify({ keys: [first, second] }));
  login = await startLogin({
    clientId,
    keys: () => Promise.resolve(keys.published as never),
    nowMs: () => machine.now(),
  });
  lines = [];
});
afterEach(() => login.close());

const smart = (more: Partial<SmartOptions> = {}) =>
  new SmartAuthorization({
    fhirUrl: login.fhirUrl,
    clientId,
    keys: () => Promise.resolve(keys),
    scope: 'system/*.rs',
    machine,
    log: pino({ level: 'debug' }, { write: (text: string) => void lines.push(text) }),
    timeLimitMs: 1000,
    ...more,
  });
const pass = (seconds: number) => machine.sleep(seconds * 1000).then(() => void machine.slept.pop());
const failure = async (promise: Promise<unknown>): Promise<NoToken> => {
  const error = await promise.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(NoToken);
  return error as NoToken;
};
const configuration = '/r4/.well-known/smart-configuration';

describe('a token', () => {
  it('is had where the FHIR server says, by a request as Backend Services wants it', async () => {
    expect(await smart().token()).toBe('token-1');
    expect(login.asked).toEqual([configuration, '/token']);
    expect([...(login.forms[0]?.keys() ?? [])].sort()).toEqual([
      'client_assertion',
      'client_assertion_type',
      'grant_type',
      'scope',
    ]);
    expect(login.forms[0]?.get('scope')).toBe('system/*.rs');
  });

  it('is had where the setting says, without asking the FHIR server', async () => {
    expect(await smart({ tokenUrl: login.tokenUrl }).token()).toBe('token-1');
    expect(login.asked).toEqual(['/token']);
  });

  it('is one for all calls at once', async () => {
    const access = smart();
    const tokens = await Promise.all(Array.from({ length: 20 }, () => access.token()));
    expect(new Set(tokens)).toEqual(new Set(['token-1']));
    expect(login.forms).toHaveLength(1);
  });

  it.each([
    [300, 239, 240],
    [3600, 3539, 3540],
    [40, 29, 30],
    ['300', 239, 240],
    [undefined, 239, 240],
  ])('that lives %s s is used for %i s and renewed after %i s', async (expires, before, after) => {
    login.grant = { token_type: 'Bearer', expires_in: expires };
    const access = smart();
    await access.token();
    await pass(before);
    expect(await access.token()).toBe('token-1');
    await pass(after - before);
    expect(await access.token()).toBe('token-2');
    expect(login.asked).toEqual([configuration, '/token', '/token']);
  });

  it('that can’t be renewed early is used until its end, and no longer', async () => {
    const access = smart();
    await access.token();
    login.instead.push(...Array.from({ length: 9 }, () => ({ status: 500 })));
    await pass(250);
    expect(await access.token()).toBe('token-1');
    await pass(51);
    expect((await failure(access.token())).message).toContain('status 500');
  });

  it('is signed for by the first key of the moment', async () => {
    const access = smart();
    await access.token();
    keys = await readClientKeys(JSON.stringify({ keys: [second, first] }));
    await pass(300);
    expect(await access.token()).toBe('token-2');
    const kids = login.forms.map((form) => {
      const [header = ''] = (form.get('client_assertion') ?? '').split('.');
      return (JSON.parse(Buffer.from(header, 'base64url').toString()) as { kid: string }).kid;
    });
    expect(kids).toEqual(['one', 'two']);
  });

  it('with fewer scopes than were asked for is used, and they are named', async () => {
    login.grant = { token_type: 'bearer', expires_in: 300, scope: 'system/Task.crus' };
    await smart({ scope: 'system/Task.crus system/Patient.rs' }).token();
    expect(lines.join()).toContain('"missing":["system/Patient.rs"]');
  });
});

describe('a login server', () => {
  it('that fails is tried three times with growing waits, then left alone, longer each time', async () => {
    const access = smart();
    login.instead.push(...Array.from({ length: 6 }, () => ({ status: 503 })));
    expect((await failure(access.token())).message).toContain('status 503');
    expect([login.forms.length, machine.slept]).toEqual([3, [375, 750]]);
    await pass(14);
    await failure(access.token());
    expect(login.forms).toHaveLength(3);
    await pass(2);
    await failure(access.token());
    expect(login.forms).toHaveLength(6);
    await pass(29);
    await failure(access.token());
    expect(login.forms).toHaveLength(6);
    await pass(2);
    expect(await access.token()).toBe('token-1');
    expect(login.forms).toHaveLength(7);
  });

  it('that comes back between two tries gives the token', async () => {
    login.instead.push({ status: 502, body: '<html>' });
    expect(await smart().token()).toBe('token-1');
  });

  it('is left alone for as long as it asks', async () => {
    const access = smart();
    login.instead.push({ status: 429, headers: { 'retry-after': '120' } });
    await failure(access.token());
    await pass(119);
    await failure(access.token());
    expect(login.forms).toHaveLength(1);
    await pass(2);
    expect(await access.token()).toBe('token-1');
  });

  it('that can’t be reached or does not answer in time is said to be so', async () => {
    machine.expireCall(1);
    expect(await smart({ tokenUrl: login.tokenUrl }).token()).toBe('token-1');
    expect(machine.slept).toEqual([375]);
    const away = smart({ tokenUrl: 'http://127.0.0.1:9/token' });
    expect((await failure(away.token())).message).toContain('http://127.0.0.1:9/token: no connection');
  });

  it('is not asked where the adapter stops', async () => {
    const stop = AbortSignal.abort();
    expect((await failure(smart({ tokenUrl: login.tokenUrl, stop }).token())).passing).toBe(false);
    expect([login.forms, machine.slept]).toEqual([[], []]);
  });

  it.each<[string, Instead, RegExp]>([
    ['refuses the client', { status: 400, body: { error: 'invalid_client' } }, /status 400, invalid_client$/],
    [
      'refuses with 401',
      { status: 401, body: { error: 'invalid_client', error_description: 'unknown kid' } },
      /\(unknown kid\)/,
    ],
    ['refuses with no JSON', { status: 403, body: '<html>' }, /status 403$/],
    ['leads elsewhere', { status: 307, headers: { location: '/token' } }, /status 307/],
    ['gives no JSON', { status: 200, body: 'hello' }, /the body can’t be used/],
    ['gives JSON that is no object', { status: 200, body: '[1]' }, /can’t be used/],
    [
      'gives no token',
      { status: 200, body: { token_type: 'bearer', expires_in: 300 } },
      /access_token can’t be used/,
    ],
    [
      'gives a token that breaks a header',
      { status: 200, body: { access_token: 'a\r\nb', token_type: 'bearer' } },
      /access_token can’t be used/,
    ],
    [
      'gives a token of another kind',
      { status: 200, body: { access_token: 'a', token_type: 'mac' } },
      /token_type can’t be used/,
    ],
    [
      'gives a token that is over',
      { status: 200, body: { access_token: 'a', token_type: 'bearer', expires_in: 0 } },
      /expires_in can’t be used/,
    ],
    [
      'gives a token with an end that is no number',
      { status: 200, body: { access_token: 'a', token_type: 'bearer', expires_in: 'soon' } },
      /expires_in can’t be used/,
    ],
  ])('that %s is asked once, and it is said why', async (_, answer, why) => {
    login.instead.push(answer);
    expect((await failure(smart().token())).message).toMatch(why);
    expect(login.forms).toHaveLength(1);
  });

  it('gets no assertion or token said, though it repeats them', async () => {
    const access = smart();
    const secret = `${'x'.repeat(30)}.${'y'.repeat(30)}.${'z'.repeat(30)}`;
    login.instead.push({
      status: 400,
      body: { error: 'invalid_client', error_description: `bad ${secret} here` },
    });
    const { message } = await failure(access.token());
    expect(message).toContain('(bad … here)');
    await pass(60);
    await access.token();
    const assertions = login.forms.map((form) => form.get('client_assertion') ?? '-');
    for (const text of [secret, 'token-1', ...assertions]) expect(lines.join() + message).not.toContain(text);
  });
});

describe('the FHIR server’s configuration', () => {
  it.each<[string, Instead, RegExp]>([
    ['is not there', { status: 404 }, /smart-configuration: status 404/],
    ['is no JSON', { status: 200, body: '<html>' }, /names no token_endpoint/],
    ['names none', { status: 200, body: { token_endpoint: 7 } }, /names no token_endpoint/],
    [
      'names one without TLS',
      { status: 200, body: { token_endpoint: 'http://login.test/token' } },
      /no https URL/,
    ],
    ['leads elsewhere', { status: 302, headers: { location: '/other' } }, /status 302/],
  ])('that %s gives no token', async (_, answer, why) => {
    login.configuration.push(answer);
    const access = smart();
    expect((await failure(access.token())).message).toMatch(why);
    expect(login.forms).toHaveLength(0);
    await pass(16);
    expect(await access.token()).toBe('token-1');
  });

  it('is asked again after a failure: the place may have moved', async () => {
    login.configuration.push({ status: 200, body: { token_endpoint: `${login.url}/r4/old` } });
    const access = smart();
    await failure(access.token());
    await pass(16);
    expect(await access.token()).toBe('token-1');
  });

  it('that lists other ways is said to, and asked all the same', async () => {
    const lists = {
      token_endpoint: login.tokenUrl,
      token_endpoint_auth_methods_supported: ['client_secret_basic'],
      token_endpoint_auth_signing_alg_values_supported: ['RS384'],
    };
    login.configuration.push({ status: 200, body: lists });
    expect(await smart().token()).toBe('token-1');
    expect(lines.join()).toMatch(/does not list private_key_jwt[^]*does not list the algorithm/);
  });
});

describe('a call to the FHIR server', () => {
  const fhir = (authorization: SmartAuthorization | ReturnType<typeof tokenOfFile>) =>
    new FhirServer({ baseUrl: login.fhirUrl, machine, authorization });
  const refusal = async (promise: Promise<unknown>): Promise<FhirServerError> => {
    const error = await promise.catch((thrown: unknown) => thrown);
    expect(error).toBeInstanceOf(FhirServerError);
    return error as FhirServerError;
  };

  it('A24: carries the token, and another one once where it is refused', async () => {
    const server = fhir(smart());
    expect(await server.read('Patient', '1')).toMatchObject({ id: '1' });
    login.good.clear();
    expect(await server.read('Patient', '1')).toMatchObject({ id: '1' });
    expect(login.sent).toEqual(['token-1', 'token-1', 'token-2']);
  });

  it('that writes is made once more, too: who is not let in has written nothing', async () => {
    const server = fhir(smart());
    await server.read('Patient', '1');
    login.good.clear();
    await server.transaction({ resourceType: 'Bundle', type: 'transaction', entry: [] });
    expect(login.sent).toEqual(['token-1', 'token-1', 'token-2']);
  });

  it('of a server that refuses every token fails, and tokens are not asked for without end', async () => {
    const server = fhir(smart());
    login.refusesAll = true;
    for (let n = 0; n < 5; n++) {
      const error = await refusal(server.read('Patient', '1'));
      expect([error.code, error.status]).toEqual(['refused', 401]);
    }
    expect(login.sent).toEqual(['token-1', ...Array.from({ length: 5 }, () => 'token-2')]);
    await pass(30);
    await refusal(server.read('Patient', '1'));
    expect(login.sent.at(-1)).toBe('token-3');
  });

  it('is not made without a token, and says so', async () => {
    login.instead.push({ status: 400, body: { error: 'invalid_client' } });
    const error = await refusal(fhir(smart()).read('Patient', '1'));
    expect([error.code, error.writeUnknown, login.sent]).toEqual(['no-token', false, []]);
    expect(error.message).toContain('invalid_client');
  });

  describe('with a token of a file', () => {
    let folder: string;
    let file: string;
    beforeEach(async () => {
      folder = await mkdtemp(join(tmpdir(), 'token-'));
      file = join(folder, 'token');
      login.good.add('t1').add('t2');
    });
    afterEach(() => rm(folder, { recursive: true }));

    it('A24: carries what the file holds at the moment', async () => {
      await writeFile(file, 't1\n');
      const server = fhir(tokenOfFile(file));
      await server.read('Patient', '1');
      await writeFile(file, 't2\n');
      await server.read('Patient', '1');
      expect(login.sent).toEqual(['t1', 't2']);
    });

    it('is made once more where the file has changed since', async () => {
      await writeFile(file, 't1');
      const from = tokenOfFile(file);
      expect(await from.another('t1')).toBeUndefined();
      await writeFile(file, 't2');
      expect(await from.another('t1')).toBe('t2');
      login.good.clear();
      expect((await refusal(fhir(from).read('Patient', '1'))).status).toBe(401);
      expect(login.sent).toEqual(['t2']);
    });

    it.each([
      ['is gone', undefined, 'ENOENT'],
      ['is empty', ' \n', 'no token'],
      ['holds two lines', 'a\nb', 'no token'],
    ])('is not made where the file %s', async (_, text, why) => {
      await writeFile(file, 't1');
      const server = fhir(tokenOfFile(file));
      await server.read('Patient', '1');
      await (text === undefined ? rm(file) : writeFile(file, text));
      const error = await refusal(server.read('Patient', '1'));
      expect([error.code, login.sent]).toEqual(['no-token', ['t1']]);
      expect(error.message).toContain(why);
    });
  });
});
