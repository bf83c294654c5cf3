import type { CardHook } from '@dwellward/core';
import type { Feedback } from './request.js';

type Outcome = 'accepted' | 'overridden' | 'overridden-with-reason';

/**
 * Counts what users did with cards, by service. Nothing else of it is kept: no card, no time, no comment, so nobody’s
 * patient can be told from it.
 */
export class FeedbackCounts {
  readonly #counts = new Map<string, number>();

  add(service: CardHook, feedback: Feedback): void {
    for (const one of feedback) {
      const outcome: Outcome =
        one.outcome === 'accepted'
          ? 'accepted'
          : one.overrideReason === undefined
            ? 'overridden'
            : 'overridden-with-reason';
      const key = `service="${service}",outcome="${outcome}"`;
      this.#counts.set(key, (this.#counts.get(key) ?? 0) + 1);
    }
  }

  /** The counts in the text format of Prometheus (version 0.0.4). */
  get metrics(): string {
    const name = 'dwellward_cds_cards_total';
    if (this.#counts.size === 0) return '';
    return [
      `# HELP ${name} cards that users accepted or overrode, as CDS clients report it`,
      `# TYPE ${name} counter`,
      ...[...this.#counts].sort().map(([labels, count]) => `${name}{${labels}} ${count}`),
      '',
    ].join('\n');
  }
}
