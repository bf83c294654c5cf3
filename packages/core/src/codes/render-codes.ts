import type { CodeSeen, Standing } from '../model/codes.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { wrap } from '../words/layout.js';
import { oneLine } from '../words/safe-text.js';
import { speaker } from '../words/say.js';

export interface CodesTextOptions {
  /** Columns of the terminal; 0 for no limit. */
  readonly columns: number;
  /** All of them; else no more than twenty that are read or passed over. */
  readonly all?: boolean;
  /** English where none is given. */
  readonly language?: Language;
}

const shown = 20;

/**
 * The codes of a record for people: what is not understood on top and whole, then what is passed over, then what is read.
 * @param seen what `codesSeen` gives
 * @example
 * ```ts
 * renderCodes(codesSeen([]), { columns: 80 }); // 'Every code that concerns a line is understood.\n'
 * ```
 */
export function renderCodes(seen: readonly CodeSeen[], options: CodesTextOptions): string {
  // Nothing here has a time: no zone is needed to say it.
  const say = speaker(options.language ?? english, new Calendar('UTC'));
  const part = (standing: Standing): readonly string[] => {
    const of = seen.filter((one) => one.standing === standing);
    if (of.length === 0) return [];
    const listed = options.all || standing === 'not-understood' ? of : of.slice(0, shown);
    const left = of.length - listed.length;
    return [
      `${say({ code: 'codes-head', standing, codes: of.length })}`,
      ...listed.flatMap((one) => [
        `  ${oneLine(say({ code: 'code-seen', seen: one }))}`,
        ...(one.values.length > 0 && standing !== 'read'
          ? [`      ${oneLine(say({ code: 'code-values', values: one.values }))}`]
          : []),
      ]),
      ...(left > 0 ? [`  ${say({ code: 'codes-left-out', standing, codes: left })}`] : []),
      '',
    ];
  };
  const unclear = seen.filter(({ standing }) => standing === 'not-understood').length;
  return [
    ...(['not-understood', 'passed-over', 'read'] as const).flatMap(part),
    say({ code: 'codes-next', unclear }),
    '',
  ]
    .map((row) => wrap(row, 6, options.columns))
    .join('\n');
}
