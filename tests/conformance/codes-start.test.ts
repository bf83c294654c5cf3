import { codesSeen, startMap } from '@dwellward/core';
import { demoUnit } from '@dwellward/fixtures';
import type { Bundle, ConceptMap } from 'fhir/r4.js';
import { describe, expect, it } from 'vitest';
import { careOf, entriesOf, itemsOf, mapsOf } from './mapped-care.js';
import { recoded } from './recode.js';

// A hospital begins with `dwellward codes --start` and fills in what its charting means: here by the map that the unit was
// recoded with, of which only what the started map asks for is taken.

const unit = demoUnit();
const { bundle, map } = recoded(unit);
const seen = codesSeen(entriesOf(bundle));
const started = startMap(seen, 'https://larkspur.example/ConceptMap/lines');

/** The map that was started, filled in as far as it asks. */
function filledIn(asked: ConceptMap, whole: ConceptMap): ConceptMap {
  const wanted = new Set(
    (asked.group ?? []).flatMap(({ source, element }) =>
      element.map(({ code }) => `${source ?? ''}|${code ?? ''}`),
    ),
  );
  const group = (whole.group ?? []).map((one) => ({
    ...one,
    element: one.element.filter(({ code }) => wanted.has(`${one.source ?? ''}|${code ?? ''}`)),
  }));
  return { ...whole, group: group.filter(({ element }) => element.length > 0) };
}

/** What still is not understood is looked at again until nothing new is asked for: values show only once their code is read. */
function untilNothingIsAsked(of: Bundle, whole: ConceptMap): ConceptMap {
  let filled = filledIn(started, whole);
  for (let round = 0; round < 3; round += 1) {
    const again = startMap(codesSeen(entriesOf(of), { maps: mapsOf(filled) }), started.url ?? '');
    const more = filledIn(again, whole);
    filled = { ...filled, group: [...(filled.group ?? []), ...(more.group ?? [])] };
    if ((more.group ?? []).length === 0) return filled;
  }
  return filled;
}

describe('a map of codes that was started from the record of a hospital', () => {
  it('changes nothing before it is filled in', () => {
    const without = careOf(bundle);
    const withStarted = careOf(bundle, mapsOf(started));
    expect(itemsOf(withStarted.cares)).toEqual(itemsOf(without.cares));
    expect(withStarted.records.notUnderstood).toEqual(without.records.notUnderstood);
  });

  it('asks for every code of the hospital that care hangs on: filled in, the care is that of the demo unit, item by item', () => {
    const filled = untilNothingIsAsked(bundle, map);
    expect(itemsOf(careOf(bundle, mapsOf(filled)).cares)).toEqual(itemsOf(careOf(unit).cares));
  });

  it('has nothing left to ask of a record whose codes are all read', () => {
    expect(startMap(codesSeen(entriesOf(unit)), 'urn:x').group).toEqual([]);
    const readByMap = codesSeen(entriesOf(bundle), { maps: mapsOf(map) });
    expect(readByMap.filter(({ standing }) => standing === 'not-understood')).toEqual([]);
  });
});
