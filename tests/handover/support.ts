import { dueCare, readRecords, type LineCare, type Records } from '@dwellward/core';
import { demoInstant, demoPolicyLayers, demoUnit, demoZone } from '@dwellward/fixtures';
import { bundledPlan, readPolicy, type Policy } from '@dwellward/policy';
import { expect } from 'vitest';

/** The demo unit's hand-over is looked at over and over: it is computed once. */
export interface Demo {
  readonly records: Records;
  readonly cares: readonly LineCare[];
  readonly policy: Policy;
  readonly when: { readonly asOf: string; readonly zone: string };
}

export function demo(): Demo {
  const plans = demoPolicyLayers.map((name) => bundledPlan(name));
  const reading = readPolicy(plans);
  if (!reading.ok) throw new Error(JSON.stringify(reading.findings));
  const records = readRecords((demoUnit().entry ?? []).map(({ resource }) => ({ resource })));
  const when = { asOf: demoInstant, zone: demoZone };
  const cares = records.lines.map((line) => dueCare(line, reading.policy, when));
  return { records, cares, policy: reading.policy, when };
}

const voids = new Set(['meta', 'br', 'hr', 'img', 'input', 'link']);

/** Reads HTML by the strictest reading there is: every element closed in its order, every attribute quoted. */
export function elementsOf(
  html: string,
): { name: string; attributes: Record<string, string>; text: string }[] {
  const elements: { name: string; attributes: Record<string, string>; text: string }[] = [];
  const open: typeof elements = [];
  const rest = html.replace(/^<!DOCTYPE html>\n/, '');
  expect(rest).not.toBe(html);
  for (const [, text = '', closing, name = '', list = ''] of rest.matchAll(
    /([^<]*)<(\/?)([a-z][a-z0-9]*)((?: [a-z-]+="[^"<>]*")*)>/g,
  )) {
    for (const element of open) element.text += text;
    if (closing) {
      const last = open.pop();
      expect(last?.name).toBe(name);
      continue;
    }
    const attributes = Object.fromEntries(
      [...list.matchAll(/ ([a-z-]+)="([^"]*)"/g)].map(([, key = '', value = '']) => [key, value]),
    );
    const element = { name, attributes, text: '' };
    elements.push(element);
    if (!voids.has(name)) open.push(element);
  }
  expect(open).toEqual([]);
  // Nothing was skipped: no stray sign is left that is no tag and no entity.
  const left = rest.replace(/<\/?[a-z][a-z0-9]*(?: [a-z-]+="[^"<>]*")*>/g, '');
  expect(left).not.toMatch(/[<]|&(?!(?:amp|lt|gt|quot|#39);)/);
  return elements;
}
