#!/usr/bin/env node
import { once } from 'node:events';
import { exitCodes, run, systemRefusal } from '../dist/command.js';

// A write that fails later than it was asked for comes as an event: a closed pipe, a full disk.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error) => {
    const refused = systemRefusal(error);
    if (!refused) throw error;
    if (stream === process.stdout) {
      try {
        process.stderr.write(`dwellward: ${refused.words}\n`);
      } catch {
        // Nobody is left to tell.
      }
    }
    process.exit(exitCodes['not-written']);
  });
}

process.exitCode = await run(process.argv.slice(2), {
  stdin: process.stdin,
  write: (text) => void process.stdout.write(text),
  drained: async () => {
    if (process.stdout.writableNeedDrain) await once(process.stdout, 'drain');
  },
  warn: (text) => void process.stderr.write(text),
  colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
  columns: process.stdout.columns ?? 0,
  progress: process.stderr.isTTY === true,
  now: () => new Date().toISOString(),
});
