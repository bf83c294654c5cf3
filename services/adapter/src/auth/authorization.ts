/** What the calls to a FHIR server are made with. */
export interface Authorization {
  /** The bearer token of the next call; undefined where none is sent. @throws NoToken where it can't be had now. */
  token(): Promise<string | undefined>;
  /**
   * Told that the server refused a token (401).
   * @returns another one with which the call may be made once more; undefined where there is none.
   * @throws NoToken where another should be had and can't.
   */
  another(refused: string): Promise<string | undefined>;
}

/** A token that was to be sent and can't be had. Never holds one. */
export class NoToken extends Error {
  override readonly name = 'NoToken';
  /** True where the next try may do: it does not answer, or says not now. */
  readonly passing: boolean;
  readonly retryAfterMs: number | undefined;

  constructor(
    message: string,
    more: { passing?: boolean; retryAfterMs?: number | undefined; cause?: unknown } = {},
  ) {
    super(message, { cause: more.cause });
    this.passing = more.passing ?? false;
    this.retryAfterMs = more.retryAfterMs;
  }
}

/** A token is printable ASCII without spaces: anything else would break the header that it is sent in. */
export const tokenPattern = /^[\x21-\x7e]+$/;

/** The same token for ever, or none. */
export function lasting(token: string | undefined): Authorization {
  return { token: () => Promise.resolve(token), another: () => Promise.resolve(undefined) };
}
