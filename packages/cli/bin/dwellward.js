#!/usr/bin/env node
import { run } from '../dist/index.js';

process.exitCode = await run(process.argv.slice(2), {
  stdin: process.stdin,
  write: (text) => void process.stdout.write(text),
  warn: (text) => void process.stderr.write(text),
  colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
  columns: process.stdout.columns ?? 0,
  progress: process.stderr.isTTY === true,
  now: () => new Date().toISOString(),
});
