import type { Citation } from '@dwellward/policy';
import type { Say } from './say.js';

/** The sources of a rule, as its owner cites them. */
export function sourceTexts(citations: readonly Citation[], say: Say): string[] {
  return citations.map(({ text, url }) => {
    const said = say({ code: 'policy-text', text });
    return url ? `${said} <${url}>` : said;
  });
}

/** What the owner of a policy says besides, each in words of its own. */
export function policyTexts(texts: readonly string[], say: Say): string[] {
  return texts.map((text) => say({ code: 'policy-text', text }));
}
