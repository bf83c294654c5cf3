/** Texts that stand where one is still to be written, as people and starting plans leave them. */
const placeholders = [
  /\breplace this\b/i,
  /^[^\p{L}]*(todo|tbd|fixme|xxx+|lorem ipsum|placeholder|n\.?\s*\/?\s*a\.?|none|reason)?[^\p{L}]*$/iu,
  /^[^\p{L}]*(todo|tbd|fixme)\b/iu,
  /^[[<{].*[\]>}]$/,
];

/** Whether a text only keeps the place of one. */
export function isPlaceholder(text: string): boolean {
  return placeholders.some((one) => one.test(text.trim()));
}

const fewestWords = 3;
/** Of scripts that put no spaces between words. */
const fewestSigns = 6;

/**
 * Whether a text can be a reason: at least three words. That it is a good one no program can tell, so every reason is shown
 * wherever the rule that it loosens would have stood.
 */
export function saysWhy(text: string): boolean {
  const signs = text.match(/[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Thai}]/gu) ?? [];
  return (text.match(/\p{L}{2,}/gu) ?? []).length >= fewestWords || signs.length >= fewestSigns;
}
