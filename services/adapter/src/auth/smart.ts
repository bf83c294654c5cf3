import type { Logger } from 'pino';
import type { Machine } from '../machine.js';
import { clientAssertion } from './assertion.js';
import type { AskOptions } from './ask.js';
import { NoToken, type Authorization } from './authorization.js';
import type { ClientKeys } from './client-keys.js';
import { discoverTokenUrl } from './discovery.js';
import { reasonOf } from './token-file.js';
import { requestToken } from './token-request.js';

export interface SmartOptions {
  readonly fhirUrl: string;
  readonly clientId: string;
  readonly keys: () => Promise<ClientKeys>;
  readonly scope: string;
  /** Where tokens are to be had; the FHIR server is asked where absent. */
  readonly tokenUrl?: string | undefined;
  readonly machine: Machine;
  readonly log: Logger;
  /** Time limit of one call, milliseconds. */
  readonly timeLimitMs: number;
  readonly stop?: AbortSignal | undefined;
}

/** A token is renewed so long before its end, or a quarter of its life where that is less. */
const renewBeforeMs = 60_000;
/** Tries of one renewal, and the first wait between them, doubled each time. */
const tries = 3;
const firstWaitMs = 500;
/** After a renewal that failed nobody is asked for so long, doubled with each further one. */
const firstRestMs = 15_000;
const longestRestMs = 300_000;
/** A token that is refused is renewed at most this often: a server that refuses all of them is no reason to ask on. */
const renewRefusedEveryMs = 30_000;

interface Held {
  readonly token: string;
  readonly renewMs: number;
  readonly endsMs: number;
}

/** Tokens by SMART Backend Services: had when first needed, renewed before their end. */
export class SmartAuthorization implements Authorization {
  readonly #options: SmartOptions;
  readonly #asking: AskOptions;
  #held: Held | undefined;
  #renewal: Promise<Held> | undefined;
  #discovered: string | undefined;
  #restsUntilMs = -Infinity;
  #failures = 0;
  #lastFailure: NoToken | undefined;
  #renewedRefusedMs = -Infinity;

  constructor(options: SmartOptions) {
    this.#options = options;
    const { machine, timeLimitMs, stop } = options;
    this.#asking = { machine, timeLimitMs, stop };
  }

  async token(): Promise<string> {
    const held = this.#held;
    if (held && this.#now < held.renewMs) return held.token;
    try {
      return (await this.#renewed()).token;
    } catch (error) {
      // It was asked for early: what is held is good until its end.
      if (held && held === this.#held && this.#now < held.endsMs) return held.token;
      throw error;
    }
  }

  async another(refused: string): Promise<string | undefined> {
    if (this.#held?.token === refused) {
      if (this.#now - this.#renewedRefusedMs < renewRefusedEveryMs) return undefined;
      this.#renewedRefusedMs = this.#now;
      this.#held = undefined;
    }
    const token = await this.token();
    return token === refused ? undefined : token;
  }

  get #now(): number {
    return this.#options.machine.now();
  }

  /** Many calls wait for one renewal. */
  #renewed(): Promise<Held> {
    if (this.#now < this.#restsUntilMs && this.#lastFailure) return Promise.reject(this.#lastFailure);
    this.#renewal ??= this.#renew().finally(() => (this.#renewal = undefined));
    return this.#renewal;
  }

  async #renew(): Promise<Held> {
    const { log, machine, stop } = this.#options;
    for (let attempt = 1; ; attempt++) {
      try {
        this.#held = await this.#obtain();
        this.#failures = 0;
        return this.#held;
      } catch (error) {
        const failure =
          error instanceof NoToken ? error : new NoToken(reasonOf(error), { passing: false, cause: error });
        const waitMs = firstWaitMs * 2 ** (attempt - 1) * (0.5 + machine.random() / 2);
        const asked = failure.retryAfterMs;
        if (!failure.passing || asked !== undefined || attempt >= tries || stop?.aborted) {
          const restMs = Math.min(firstRestMs * 2 ** this.#failures, longestRestMs);
          this.#failures += 1;
          this.#restsUntilMs = this.#now + Math.max(restMs, asked ?? 0);
          this.#lastFailure = failure;
          // It may have moved.
          this.#discovered = undefined;
          log.error({ because: failure.message, failures: this.#failures }, 'No access token could be had.');
          throw failure;
        }
        await machine.sleep(waitMs, stop);
      }
    }
  }

  async #obtain(): Promise<Held> {
    const { fhirUrl, clientId, keys, scope, log } = this.#options;
    const { signing } = await keys();
    const tokenUrl =
      this.#options.tokenUrl ??
      (this.#discovered ??= await discoverTokenUrl(fhirUrl, signing.algorithm, log, this.#asking));
    // Its life is counted from before it was asked for.
    const nowMs = this.#now;
    const assertion = await clientAssertion({ clientId, tokenUrl, signing, nowMs });
    const { token, seconds, scope: given } = await requestToken(tokenUrl, assertion, scope, this.#asking);
    const has = new Set(given?.split(' '));
    const missing = given === undefined ? [] : scope.split(' ').filter((one) => !has.has(one));
    if (missing.length > 0) log.warn({ missing }, 'The access token lacks scopes that were asked for.');
    log.debug({ seconds }, 'An access token was had.');
    const lifeMs = seconds * 1000;
    const endsMs = nowMs + lifeMs;
    return { token, endsMs, renewMs: endsMs - Math.min(renewBeforeMs, lifeMs / 4) };
  }
}
