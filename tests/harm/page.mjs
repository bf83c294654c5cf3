// Writes docs/hazards.md from tests/harm/hazards.
import { mkdirSync, writeFileSync } from 'node:fs';
import { hazardsPage, readHazards } from './hazards.mjs';

const page = new URL('../../docs/hazards.md', import.meta.url);
mkdirSync(new URL('.', page), { recursive: true });
writeFileSync(page, hazardsPage(readHazards()));
