// What a terminal or a page could take for something other than text. Names come from records and files, which others
// write: with these a name could colour, move or forge what stands around it.
//
// Gone without a trace, since nobody sees them: zero-width signs, soft hyphens, selectors of variants, tags.
const zeroWidth = String.raw`\u00ad\u034f\u180b-\u180f\u200b\u2060-\u2065\ufe00-\ufe0d\ufeff`;
// Joiners and selectors stay where writing needs them: within an emoji, and in the scripts that join their letters.
const emoji = String.raw`\p{Extended_Pictographic}\p{Emoji_Modifier}\ufe0f`;
const joinedScripts = [
  ...['Arabic', 'Syriac', 'Mongolian', 'Devanagari', 'Bengali', 'Gurmukhi', 'Gujarati', 'Oriya', 'Tamil'],
  ...['Telugu', 'Kannada', 'Malayalam', 'Sinhala'],
].map((script) => String.raw`\p{Script=${script}}`);
const unseen = new RegExp(
  [
    `[${zeroWidth}]`,
    String.raw`[\u{e0000}-\u{e0fff}]`,
    String.raw`(?<![${emoji}])[\ufe0e\ufe0f]`,
    String.raw`(?<![${emoji}${joinedScripts.join('')}])[\u200c\u200d]`,
  ].join('|'),
  'gu',
);
// Shown as a replacement: C0 and C1 controls, marks, embeddings, overrides and isolates of direction, interlinear
// annotations, and halves of surrogate pairs.
const harmful =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2066-\u206f\ufff9-\ufffb]|\p{Cs}/gu;
// Blanks of every kind and line breaks, also letters that only look like a blank.
const blanks = /[\s\u0085\u115f\u1160\u2800\u3164\uffa0]+/gu;

const replacement = '\ufffd';

// One look, so that the usual text costs no more than that: a text of plain signs with single blanks.
const plain = /^(?:[!-~\u00a1-\u00ac\u00ae-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u23ff]+(?: |$))*$/u;

/**
 * A text of others on one line, as it can stand in any output for people: line breaks and runs of blanks are one blank,
 * what a terminal would obey is shown as a replacement character, and what nobody can see is left out.
 * @example
 * ```ts
 * oneLine('a\nb').includes('\n'); // false
 * ```
 */
export function oneLine(text: string): string {
  if (plain.test(text)) return text;
  return text.replace(unseen, '').replace(blanks, ' ').replace(harmful, replacement);
}

/**
 * The same value with `oneLine` of every text in it: itself where nothing has to be made safe, else a copy.
 * @example
 * ```ts
 * eachOnOneLine({ title: 'a\nb' }).title.includes('\n'); // false
 * ```
 */
export function eachOnOneLine<Value>(value: Value): Value;
export function eachOnOneLine(value: unknown): unknown {
  if (typeof value === 'string') return oneLine(value);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const parts = value.map((part: unknown) => eachOnOneLine(part));
    return parts.some((part, i) => part !== value[i]) ? parts : value;
  }
  let changed: Record<string, unknown> | undefined;
  for (const [name, part] of Object.entries(value) as [string, unknown][]) {
    const made = eachOnOneLine(part);
    if (made !== part) changed = { ...(changed ?? value), [name]: made };
  }
  return changed ?? value;
}

// Everything that `oneLine` takes out, but line breaks and tabs.
const inWholeText =
  // eslint-disable-next-line no-control-regex
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u206f\ufff9-\ufffb]|\p{Cs}/gu;
// The styles that the layout itself sets.
// eslint-disable-next-line no-control-regex
const ownStyle = /\u001b\[(?:0|1|2|33|36|1;35)m/g;

/**
 * A whole output for a terminal, with its line breaks: the last guard, whatever came before it. Our own styles stay
 * where they are wanted; a CR stays before a line break, as in a calendar file.
 * @example
 * ```ts
 * forTerminal('a\u001b[31mb').includes('\u001b'); // false
 * ```
 */
export function forTerminal(text: string, styled = false): string {
  const parts = styled ? text.split(ownStyle) : [text];
  const styles = styled ? (text.match(ownStyle) ?? []) : [];
  return parts
    .map((part, i) => {
      const safe = part
        .split('\r\n')
        .map((line) => line.replace(unseen, '').replace(inWholeText, replacement))
        .join('\r\n');
      return safe + (styles[i] ?? '');
    })
    .join('');
}

// Left as they are by JSON.stringify, and only ever within its strings.
const obeyed = String.raw`\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufff9-\ufffb`;
const rawInJson = new RegExp(
  [obeyed, zeroWidth, String.raw`\ufe0e\ufe0f`].map((signs) => `[${signs}]`).join('|'),
  'g',
);

/**
 * The same JSON with every sign that a terminal would obey, or nobody would see, written as an escape: no data change.
 * @example
 * ```ts
 * JSON.parse(safeJson(JSON.stringify('a\u202eb'))); // 'a\u202eb'
 * ```
 */
export function safeJson(json: string): string {
  return json.replace(rawInJson, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}
