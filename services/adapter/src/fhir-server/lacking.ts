import { FhirServerError } from './errors.js';

/** Types that are written beside the Tasks. A server may do without them: care is asked for all the same. */
export const sparableTypes = ['Provenance', 'Flag', 'DetectedIssue', 'AuditEvent'] as const;
export type SparableType = (typeof sparableTypes)[number];

export function isSparable(type: string): type is SparableType {
  return (sparableTypes as readonly string[]).includes(type);
}

/** How a type came to be left out. */
export interface Lack {
  readonly type: SparableType;
  readonly because: 'set' | 'not-listed' | 'refused';
  readonly detail: string;
}

/** Which of the types beside the Tasks a server does not have: as it was set, as the server says, or as it turned out. */
export class Lacking {
  readonly #lacks = new Map<SparableType, Lack>();
  readonly #told = new Set<SparableType>();
  readonly #tell: (lack: Lack) => void;

  /**
   * @param set types that are left out by the settings.
   * @param tell told of every other type, once.
   */
  constructor(set: readonly string[] = [], tell: (lack: Lack) => void = () => undefined) {
    this.#tell = tell;
    for (const type of set.filter(isSparable))
      this.#lacks.set(type, { type, because: 'set', detail: 'left out by the settings' });
  }

  has(type: string): boolean {
    return isSparable(type) && this.#lacks.has(type);
  }

  get all(): readonly Lack[] {
    return [...this.#lacks.values()];
  }

  learn(lack: Lack): void {
    if (this.#lacks.has(lack.type)) return;
    this.#lacks.set(lack.type, lack);
    if (this.#told.has(lack.type)) return;
    this.#told.add(lack.type);
    this.#tell(lack);
  }

  /** What was refused may have been refused for another reason: it is tried again. */
  forgetRefusals(): void {
    for (const { type, because } of this.all) if (because === 'refused') this.#lacks.delete(type);
  }
}

/** Whether a server says by an error that it does not have what it was asked for. */
export function saysItLacks(error: unknown): error is FhirServerError {
  return error instanceof FhirServerError && [400, 404, 405, 422, 501].includes(error.status ?? 0);
}
