import { safeJson } from '@dwellward/core/safe-text';
import { pino, type DestinationStream, type Logger } from 'pino';
import type { Config } from './config.js';

/**
 * The log: one row of JSON for each thing that is said. What a terminal would obey is written as an escape, for messages
 * of servers and texts of records end up in it.
 * @param destination where the rows go; standard output without one.
 */
export function makeLog({ logLevel }: Pick<Config, 'logLevel'>, destination?: DestinationStream): Logger {
  const options = {
    level: logLevel,
    base: null,
    timestamp: pino.stdTimeFunctions.isoTime,
    hooks: { streamWrite: safeJson },
  };
  return destination ? pino(options, destination) : pino(options);
}
