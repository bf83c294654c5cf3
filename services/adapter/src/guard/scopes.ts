/** What a caller may do here, as the `scope` of its token names it. None includes another. */
export const scopes = {
  /** Details of the adapter's state, with references of the patients who are not in step. */
  statusRead: 'dwellward/status.read',
  /** What the unit's board shows. */
  boardRead: 'dwellward/board.read',
  /** What is charted, and taken back, on the board. */
  boardWrite: 'dwellward/board.write',
} as const;

export type Scope = (typeof scopes)[keyof typeof scopes];

/**
 * The scopes of a token: `scope`, words in one text (RFC 8693), or `scp`, as a text or a list. What has another shape
 * allows nothing.
 */
export function scopesOf(claims: { readonly [claim: string]: unknown }): ReadonlySet<string> {
  return new Set([claims['scope'], claims['scp']].flatMap(words));
}

function words(claim: unknown): string[] {
  if (typeof claim === 'string') return claim.split(' ').filter((word) => word !== '');
  return Array.isArray(claim) ? claim.filter((word) => typeof word === 'string') : [];
}
