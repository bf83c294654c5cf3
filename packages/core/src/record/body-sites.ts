import { bodySites, codeSystem, sidesOfBody, standard } from '@dwellward/profiles';
import { activityOf, codesOf } from './codes.js';
import type { ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { BodySite, Ref } from '../model/record.js';
import { proceduresOn } from './procedure-devices.js';
import type { Codeable, Reference } from './shapes.js';
import { meansOneOf } from './texts.js';
import { usesOf } from './uses.js';

type Site = Codeable & {
  readonly extension?: readonly { readonly valueReference?: Reference | undefined }[] | undefined;
};

/**
 * Where a line enters the body: by its insertion, else by its use, with the side as code, as post-coordinated code or in
 * words. Sources that have it on both sides are told of: two lines may be mixed up.
 */
export function bodySiteOf(line: Ref, index: ResourceIndex, issues: IssueList): BodySite | undefined {
  const insertions = proceduresOn(line, index)
    .filter(({ value }) => activityOf(value.code) === 'insertion' && value.status === 'completed')
    .flatMap(({ ref, value }) => read(ref, value.bodySite ?? []) ?? []);
  const uses = usesOf(line, index).flatMap(({ ref, value }) => {
    const site = value.bodySite as Site | undefined;
    return (site && read(ref, [site, ...structuresOf(site, ref, index)])) ?? [];
  });
  const all = [...insertions, ...uses];
  if (new Set(all.flatMap(({ side }) => side ?? [])).size > 1)
    issues.add(
      'conflicting-values',
      line,
      'DeviceUseStatement.bodySite',
      { code: 'body-sites-differ', sites: [...new Set(all.map(({ text }) => text))] },
      { severity: 'high', line, related: [...new Set(all.map(({ ref }) => ref))] },
    );
  return all[0];
}

/** What the BodyStructures say that a place points to by an extension. */
function structuresOf(site: Site, from: Ref, index: ResourceIndex): Codeable[] {
  return (site.extension ?? []).flatMap(({ valueReference }) => {
    const structure = index.get('BodyStructure', index.nameOf(valueReference, from))?.value;
    if (structure === undefined) return [];
    const { location, locationQualifier = [], description } = structure;
    return [
      ...(location ? [location] : []),
      ...locationQualifier,
      ...(description ? [{ text: description }] : []),
    ];
  });
}

function read(ref: Ref, concepts: readonly Codeable[]): BodySite | undefined {
  // Ours tell exit site from incision, and not where in the body.
  const places = concepts.filter((one) => codesOf(codeSystem.lineSite, one).length === 0);
  const codes = places.flatMap((one) => codesOf(standard.snomed, one)).flatMap(partsOf);
  const vein = codes.map((code) => bodySites.get(code)).find((one) => one !== undefined);
  const texts = places.flatMap(({ text, coding = [] }) =>
    [text, ...coding.map(({ display }) => display)].filter((one) => one !== undefined && one.trim() !== ''),
  ) as string[];
  const coded = new Set(codes.flatMap((code) => sidesOfBody.get(code) ?? []));
  const sides = coded.size > 0 ? coded : sidesIn(texts);
  const [side] = sides.size === 1 ? sides : [];
  const words = texts[0] ?? vein;
  if (words === undefined) return undefined;
  const text = side === undefined || sidesIn([words]).has(side) ? words : `${side} ${words}`;
  return { ref, text, ...(side ? { side } : {}) };
}

/** The codes of a post-coordinated expression: `12123001:272741003=7771000`. */
function partsOf(code: string): string[] {
  return code.match(/\d{6,18}/g) ?? [];
}

function sidesIn(texts: readonly string[]): ReadonlySet<'left' | 'right'> {
  return new Set([
    ...(meansOneOf(texts, ['left', 'link']) ? (['left'] as const) : []),
    ...(meansOneOf(texts, ['right', 'recht']) ? (['right'] as const) : []),
  ]);
}
