/** Gathers checks: each prints one line with its figure; the process ends non-zero when one falls short. */
export class Show {
  #failed = 0;
  #total = 0;

  /** @param {string} what @param {() => Promise<{ ok: boolean, figure: string }>} check */
  async line(what, check) {
    this.#total += 1;
    let result;
    try {
      result = await check();
    } catch (error) {
      result = { ok: false, figure: error instanceof Error ? error.message : String(error) };
    }
    if (!result.ok) this.#failed += 1;
    console.log(`${result.ok ? 'holds  ' : 'FAILS  '} ${what}: ${result.figure}`);
  }

  end() {
    console.log(`${this.#total - this.#failed} of ${this.#total} hold`);
    process.exitCode = this.#failed === 0 ? 0 : 1;
  }
}
