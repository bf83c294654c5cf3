import type { Machine } from '../machine.js';

/**
 * The one gate through which every call to a server goes. Where the server asks to be left alone (`Retry-After`) it is
 * closed for all calls, whoever made the one that was sent away.
 */
export class Gate {
  readonly #machine: Machine;
  #opensMs = -Infinity;
  /** The opening that was waited for: a sleep may end a little before its time. */
  #waitedForMs = -Infinity;

  constructor(machine: Machine) {
    this.#machine = machine;
  }

  /** How long it stays closed, milliseconds; 0 where it is open. */
  get closedForMs(): number {
    return this.#opensMs <= this.#waitedForMs ? 0 : Math.max(0, this.#opensMs - this.#machine.now());
  }

  /** Closes it for so long; one that is closed for longer stays so. */
  close(milliseconds: number): void {
    this.#opensMs = Math.max(this.#opensMs, this.#machine.now() + milliseconds);
  }

  /** Waits until it is open, or until the signal fires. */
  async pass(stop?: AbortSignal): Promise<void> {
    for (let waitMs = this.closedForMs; waitMs > 0 && !stop?.aborted; waitMs = this.closedForMs) {
      const opensMs = this.#opensMs;
      await this.#machine.sleep(waitMs, stop);
      this.#waitedForMs = Math.max(this.#waitedForMs, opensMs);
    }
  }
}
