/** Everything the command touches outside of itself, so that a test can stand in for a terminal. */
export interface Io {
  readonly stdin: AsyncIterable<Uint8Array | string>;
  readonly write: (text: string) => void;
  /** Resolves once whoever reads the output has room for more; without it all is taken at once. */
  readonly drained?: () => Promise<void>;
  readonly warn: (text: string) => void;
  readonly colour: boolean;
  /** Columns of the terminal, 0 where there is none. */
  readonly columns: number;
  /** Whether progress may be drawn on the error stream. */
  readonly progress: boolean;
  /** The present instant, ISO 8601; asked for only by `--at now`. */
  readonly now: () => string;
}
