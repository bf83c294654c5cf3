import { z } from 'zod';
import { ask, type AskOptions } from './ask.js';
import { NoToken, tokenPattern } from './authorization.js';

/** A token as it was given. */
export interface Granted {
  readonly token: string;
  readonly seconds: number;
  /** Undefined where the server does not say. */
  readonly scope: string | undefined;
}

/** SMART Backend Services recommends so much; taken for the lifetime of a token whose server does not say one. */
const usualSeconds = 300;

const granted = z.looseObject({
  access_token: z.string().regex(tokenPattern),
  token_type: z.string().regex(/^bearer$/i),
  // Some servers write the number as a text.
  expires_in: z
    .union([
      z.number(),
      z
        .string()
        .regex(/^\d{1,9}$/)
        .transform(Number),
    ])
    .pipe(z.number().positive())
    .optional(),
  scope: z.string().optional(),
});
const refused = z.looseObject({
  error: z.string().regex(/^[a-z_]{1,60}$/),
  error_description: z.string().optional().catch(undefined),
});

/**
 * Asks for a token by client credentials (RFC 6749 4.4, RFC 7523).
 * @throws NoToken where it is refused, not given now, or what is given is none. Its message holds neither a token nor the
 *   assertion, though the server may repeat them.
 */
export async function requestToken(
  tokenUrl: string,
  assertion: string,
  scope: string,
  options: AskOptions,
): Promise<Granted> {
  const form = new URLSearchParams({
    grant_type: 'client_credentials',
    scope,
    client_assertion_type: 'urn:ietf:params:oauth:client-assertion-type:jwt-bearer',
    client_assertion: assertion,
  });
  const headers = { accept: 'application/json', 'content-type': 'application/x-www-form-urlencoded' };
  const answer = await ask(tokenUrl, { method: 'POST', headers, body: form.toString() }, options);
  const { status, body } = answer;
  if (status !== 200) {
    const said = refused.safeParse(body);
    const why = said.success ? `, ${said.data.error}${described(said.data.error_description)}` : '';
    const passing = status >= 500 || status === 429;
    throw new NoToken(`${tokenUrl}: status ${status}${why}`, { passing, retryAfterMs: answer.retryAfterMs });
  }
  const read = granted.safeParse(body);
  if (!read.success) {
    const members = [...new Set(read.error.issues.map(({ path }) => path.join('.') || 'the body'))];
    throw new NoToken(`${tokenUrl} gives no token: ${members.join(', ')} can’t be used`);
  }
  const { access_token: token, expires_in: seconds = usualSeconds, scope: given } = read.data;
  return { token, seconds, scope: given };
}

function described(text: string | undefined): string {
  if (text === undefined) return '';
  // Words only: a run of signs without a space that is long enough may be a token or an assertion.
  return ` (${text.replaceAll(/\S{33,}/g, '…').slice(0, 200)})`;
}
