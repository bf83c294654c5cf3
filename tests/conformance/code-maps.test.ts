import type { LineCare } from '@dwellward/core';
import { demoUnit } from '@dwellward/fixtures';
import { describe, expect, it } from 'vitest';
import { careOf, itemsOf, mapsOf } from './mapped-care.js';
import { recoded } from './recode.js';

// The demo unit’s own due care is what is expected: nothing here is worked out by hand.

describe('the demo unit in the codes of an invented hospital', () => {
  const unit = demoUnit();
  const { bundle, map, codes } = recoded(unit);
  const was = careOf(unit);
  const before = JSON.stringify(bundle);
  const is = careOf(bundle, mapsOf(map));

  it('has none of our codes left', () => {
    expect(JSON.stringify(bundle)).not.toMatch(/dwellward\.example|loinc\.org|snomed\.info|whocc\.no/);
    expect(codes.length).toBeGreaterThan(60);
  });

  it('needs the same care with its map, item by item', () => {
    const expected = itemsOf(was.cares);
    expect(expected.length).toBeGreaterThan(150);
    expect(itemsOf(is.cares)).toEqual(expected);
  });

  it('has the same holds, and the same lumens', () => {
    const rest = (cares: readonly LineCare[]) =>
      cares.map(({ line, holds, lumens, inPlace }) => ({
        line,
        inPlace,
        holds: holds.map(({ activity, target, from, until }) => ({ activity, target, from, until })),
        lumens: lumens.map(({ lumen, state }) => ({ lumen, state })),
      }));
    expect(rest(is.cares)).toEqual(rest(was.cares));
  });

  it('leaves nothing not understood, and says what was read by its text', () => {
    expect(is.records.notUnderstood).toEqual(was.records.notUnderstood);
    const assumed = is.records.issues.filter(({ code }) => code === 'assumed');
    const texts = assumed.map(({ sentence }) => sentence);
    expect(new Set(texts.map(({ code }) => code))).toEqual(new Set(['read-by-text']));
    const flushes = (unit.entry ?? []).filter(
      ({ resource }) =>
        resource?.resourceType === 'Procedure' && resource.code?.coding?.[0]?.code === 'flush',
    ).length;
    const told = texts.reduce((sum, one) => sum + ('resources' in one ? Number(one.resources) : 0), 0);
    expect(told).toBe(flushes);
  });

  it('points to what the hospital has, in every fact', () => {
    const names = new Set(
      (bundle.entry ?? []).map(({ resource }) => `${resource!.resourceType}/${resource!.id}`),
    );
    const refs = is.cares.flatMap(({ items }) =>
      items.flatMap(({ facts }) => facts.flatMap((fact) => ('refs' in fact ? (fact.refs as string[]) : []))),
    );
    const events = is.records.lines.flatMap((line) => line.events.map(({ ref }) => ref));
    expect(events.length).toBeGreaterThan(150);
    expect([...refs, ...events].filter((ref) => !names.has(ref.split('#')[0]!))).toEqual([]);
  });

  it('is not written to', () => {
    expect(JSON.stringify(bundle)).toBe(before);
  });

  it('does not depend on the order of its resources', () => {
    const turned = { ...bundle, entry: [...(bundle.entry ?? [])].reverse() };
    expect(careOf(turned, mapsOf(map))).toEqual(is);
  });

  it('has no line without the map, and names every Device, and every act and finding on one', () => {
    const { records } = careOf(bundle);
    expect(records.lines).toEqual([]);
    const listed = new Set(
      records.notUnderstood.map(({ path, system, code, text }) => `${path} ${system ?? ''} ${code ?? text}`),
    );
    const wanted = (bundle.entry ?? []).flatMap(({ resource }) => {
      const { resourceType, type, code, focus, focalDevice } = resource as unknown as {
        resourceType: string;
        type?: { coding?: { system: string; code: string }[] };
        code?: { text?: string; coding?: { system: string; code: string }[] };
        focus?: unknown;
        focalDevice?: unknown;
      };
      const said = (concept: typeof code) =>
        `${concept?.coding?.[0]?.system ?? ''} ${concept?.coding?.[0]?.code ?? concept?.text?.trim()}`;
      if (resourceType === 'Device' && !JSON.stringify(resource).includes('"parent"'))
        return [`Device.type ${said(type)}`];
      if (resourceType === 'Procedure' && focalDevice) return [`Procedure.code ${said(code)}`];
      return resourceType === 'Observation' && focus ? [`Observation.code ${said(code)}`] : [];
    });
    expect(wanted.length).toBeGreaterThan(200);
    expect([...new Set(wanted)].filter((one) => !listed.has(one))).toEqual([]);
  });
});
