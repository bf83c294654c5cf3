import { digest } from '../model/digest.js';
import type { LineCare, LumenFact } from '../model/care.js';
import type { Ref } from '../model/record.js';
import type { Name } from '../model/sentences.js';

/** A lumen, or a line, that is damaged or blocked until somebody has put it right. */
export interface LumenWarning {
  /** The same for the same trouble of the same lumen, for as long as it stands. */
  readonly id: string;
  readonly fact: LumenFact;
  readonly name: Name;
  /** The Device to point to. */
  readonly device: Ref;
}

/** What stands against the lumens of a line: each once, also where it counts for every lumen. */
export function lumenWarnings({ line, lumens }: LineCare): LumenWarning[] {
  const warnings = lumens.flatMap(({ lumen, device, name, also, ...state }) =>
    [state, ...also]
      .filter((fact) => fact.state === 'damaged' || fact.state === 'blocked')
      .map((fact): LumenWarning => {
        const target =
          fact.of === 'line'
            ? { ref: line, device: line, name: { code: 'the-line' } as const }
            : { ref: lumen, device, name };
        return {
          id: digest('lumen-warning', fact.state, line, target.ref, fact.because[0] ?? ''),
          fact,
          name: target.name,
          device: target.device,
        };
      }),
  );
  return [...new Map(warnings.map((warning) => [warning.id, warning])).values()];
}
