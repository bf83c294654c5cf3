import { randomBytes } from 'node:crypto';
import express, { type Request, type Response, type Router } from 'express';
import {
  authorizationCodeGrant,
  buildAuthorizationUrl,
  calculatePKCECodeChallenge,
  randomPKCECodeVerifier,
  randomState,
  refreshTokenGrant,
  type Configuration,
} from 'openid-client';
import { discover, SignInError, type Client } from './discovery.js';
import { OnceKept } from './once-kept.js';

/** How users sign in with their own account of the record system (SMART App Launch 2.2). */
export interface SignInOptions {
  /** Service bases of the FHIR servers that may launch the board; the first is that of a launch from elsewhere. */
  readonly fhirBases: readonly [string, ...string[]];
  readonly client: Client;
  /** Where browsers reach the board, for example `https://board.example/`. */
  readonly publicUrl: string;
  /** What is asked for; what a nurse needs to see care and to chart it where absent. */
  readonly scope?: string;
  /** Milliseconds since 1970; the machine’s clock where absent. */
  readonly now?: () => number;
}

/** To read care, and to write what was done and seen. */
const usualScope = 'launch user/*.rs user/Procedure.cu user/Observation.cu offline_access';
/** From the launch to the return: as long as it takes to type a password. */
const pendingMs = 600_000;
/** A long shift: ward computers stay where they are when people go. */
const sessionMs = 12 * 3_600_000;
const most = 1000;
/** A token that ends so soon is renewed first. */
const soonMs = 30_000;

interface Pending {
  readonly configuration: Configuration;
  readonly verifier: string;
  readonly state: string;
}

interface Session {
  readonly configuration: Configuration;
  token: string;
  untilMs: number;
  refreshToken: string | undefined;
  readonly patient: string | undefined;
  renewing: Promise<void> | undefined;
}

/**
 * Signs users in, and keeps their tokens in this process: the browser has a cookie that no script reads, and no token
 * stands in an address, a page or a log.
 */
export class SignIn {
  readonly #options: SignInOptions;
  readonly #pending: OnceKept<Pending>;
  readonly #sessions: OnceKept<Session>;
  readonly #now: () => number;

  constructor(options: SignInOptions) {
    this.#options = options;
    this.#now = options.now ?? Date.now;
    this.#pending = new OnceKept(pendingMs, most, this.#now);
    this.#sessions = new OnceKept(sessionMs, most, this.#now);
  }

  /** `/launch` sends to the record system, `/callback` comes back from it. */
  routes(): Router {
    const routes = express.Router();
    routes.get('/launch', (request, response, next) => {
      this.#launch(request, response).catch(next);
    });
    routes.get('/callback', (request, response, next) => {
      this.#callback(request, response).catch(next);
    });
    routes.use((error: unknown, _request: Request, response: Response, next: (error: unknown) => void) => {
      if (!(error instanceof SignInError)) return next(error);
      return response.status(403).type('text/plain').send(`${error.message}\n`);
    });
    return routes;
  }

  /** The user’s own token; undefined where nobody is signed in, or not any more. */
  async tokenOf(request: Request): Promise<string | undefined> {
    const key = cookie(request, 'session');
    const session = this.#sessions.get(key);
    if (session === undefined) return undefined;
    if (this.#now() < session.untilMs - soonMs) return session.token;
    session.renewing ??= this.#renew(session).finally(() => (session.renewing = undefined));
    await session.renewing;
    if (this.#now() < session.untilMs) return session.token;
    this.#sessions.take(key);
    return undefined;
  }

  /** The patient whose record the board was launched from, where there is one. */
  patientOf(request: Request): string | undefined {
    return this.#sessions.get(cookie(request, 'session'))?.patient;
  }

  /** Ends a session: the user leaves, or the record system takes the token no longer. */
  end(request: Request, response: Response): void {
    this.#sessions.take(cookie(request, 'session'));
    if (!response.headersSent) response.clearCookie('session', this.#cookie);
  }

  async #launch({ query }: Request, response: Response): Promise<void> {
    const { fhirBases, client, publicUrl, scope = usualScope } = this.#options;
    const [iss, launch] = [query['iss'], query['launch']];
    const base = iss === undefined ? fhirBases[0] : fhirBases.find((one) => isSame(one, iss));
    if (base === undefined) throw new SignInError('The board is not to be launched from this server.');
    const configuration = await discover(base, client);
    const [verifier, state, key] = [randomPKCECodeVerifier(), randomState(), secret()];
    this.#pending.put(key, { configuration, verifier, state });
    const url = buildAuthorizationUrl(configuration, {
      redirect_uri: new URL('callback', publicUrl).href,
      // Launched from a patient’s record it is told whose; from elsewhere it is the whole unit.
      scope: typeof launch === 'string' ? scope : withoutLaunch(scope),
      state,
      aud: base,
      code_challenge: await calculatePKCECodeChallenge(verifier),
      code_challenge_method: 'S256',
      ...(typeof launch === 'string' ? { launch } : {}),
    });
    response.cookie('pending', key, { ...this.#cookie, maxAge: pendingMs }).redirect(303, url.href);
  }

  async #callback(request: Request, response: Response): Promise<void> {
    const pending = this.#pending.take(cookie(request, 'pending'));
    response.clearCookie('pending', this.#cookie);
    if (pending === undefined)
      throw new SignInError('Nobody asked to sign in from here. Begin again at /launch.');
    const { configuration, verifier, state } = pending;
    const here = new URL(request.originalUrl, this.#options.publicUrl);
    const tokens = await authorizationCodeGrant(configuration, here, {
      pkceCodeVerifier: verifier,
      expectedState: state,
    }).catch(() => {
      // What went wrong is told by the record system, and may hold what nobody else should read.
      throw new SignInError('The record system did not sign you in. Begin again at /launch.');
    });
    const key = secret();
    this.#sessions.put(key, {
      configuration,
      token: tokens.access_token,
      untilMs: this.#endOf(tokens.expiresIn()),
      refreshToken: tokens.refresh_token,
      patient: typeof tokens['patient'] === 'string' ? tokens['patient'] : undefined,
      renewing: undefined,
    });
    response.cookie('session', key, this.#cookie).redirect(303, '/');
  }

  async #renew(session: Session): Promise<void> {
    const { configuration, refreshToken } = session;
    if (refreshToken === undefined) return;
    const tokens = await refreshTokenGrant(configuration, refreshToken).catch(() => undefined);
    if (tokens === undefined) return;
    session.token = tokens.access_token;
    session.untilMs = this.#endOf(tokens.expiresIn());
    session.refreshToken = tokens.refresh_token ?? refreshToken;
  }

  /** A token that says nothing of its end is taken for five minutes. */
  #endOf(seconds: number | undefined): number {
    return this.#now() + (seconds ?? 300) * 1000;
  }

  get #cookie() {
    const secure = new URL(this.#options.publicUrl).protocol === 'https:';
    return { httpOnly: true, sameSite: 'lax', secure, path: '/' } as const;
  }
}

function withoutLaunch(scope: string): string {
  return scope
    .split(' ')
    .filter((one) => one !== 'launch')
    .join(' ');
}

function secret(): string {
  return randomBytes(32).toString('base64url');
}

function isSame(base: string, iss: unknown): boolean {
  return typeof iss === 'string' && base.replace(/\/$/, '') === iss.replace(/\/$/, '');
}

/** One cookie of a request; the board sets two, and no library is needed to read them. */
function cookie(request: Request, name: string): string | undefined {
  const pairs = (request.get('cookie') ?? '').split(';').map((pair) => pair.trim().split('='));
  return pairs.find(([own]) => own === name)?.[1];
}
