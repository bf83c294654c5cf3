#!/usr/bin/env node
import { main } from '../dist/main.js';

const interrupted = new Promise((resolve) => {
  process.once('SIGTERM', resolve);
  process.once('SIGINT', resolve);
});

process.exitCode = await main(process.argv.slice(2), {
  environment: process.env,
  print: (text) => console.log(text),
  printError: (text) => console.error(text),
  interrupted,
});
