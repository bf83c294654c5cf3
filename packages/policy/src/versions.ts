import { dayAfter, dayBefore } from './effective.js';
import { Findings, type LintFinding } from './findings.js';
import { isObject } from './json.js';
import { merge, type Extent } from './merge.js';
import type { Policy, PolicyVersion } from './model.js';
import type { Layer } from './read-layer.js';

/** The place of every plan in the stack: plans with one url are versions of one layer and share the first one’s. */
export function placesOf(plans: readonly unknown[]): readonly number[] {
  const byUrl = new Map<string, number>();
  let next = 0;
  return plans.map((plan) => {
    const url = isObject(plan) && typeof plan['url'] === 'string' ? plan['url'].split('|')[0] : undefined;
    if (url === undefined || url === '') return next++;
    const place = byUrl.get(url) ?? next++;
    byUrl.set(url, place);
    return place;
  });
}

/** Refuses plans with one url that are the same version, or that are in force on one and the same day. */
export function checkVersions(layers: readonly Layer[], list: LintFinding[]): void {
  layers.forEach((layer, at) => {
    const findings = new Findings(list, layer.index, 'PlanDefinition');
    for (const other of layers.slice(0, at)) {
      const { url, version, effective } = layer.origin;
      if (url !== other.origin.url) continue;
      if (effective === undefined && other.origin.effective === undefined) {
        findings.error(
          'url',
          'same-url',
          `${url} is also the url of layer ${other.index}`,
          'Give every layer a url of its own, or leave one of the two out. Versions of one layer need an effectivePeriod each.',
        );
      } else if (version === other.origin.version) {
        findings.error(
          'version',
          'same-version',
          `${version === '' ? 'no version' : version} is also the version of layer ${other.index}, which has the same url`,
          'Give every version of a layer a version of its own.',
        );
      } else checkOverlap(layer, other, findings);
    }
  });
}

function checkOverlap(layer: Layer, other: Layer, findings: Findings): void {
  const [a, b] = [layer.origin.effective ?? {}, other.origin.effective ?? {}];
  const apart =
    (a.end !== undefined && b.start !== undefined && a.end < b.start) ||
    (b.end !== undefined && a.start !== undefined && b.end < a.start);
  if (apart) return;
  // The one that begins later takes over: the other has to end on the day before.
  const [first, second] = (a.start ?? '') < (b.start ?? '') ? [layer, other] : [other, layer];
  const begins = second.origin.effective?.start;
  const cure =
    begins === undefined || begins === first.origin.effective?.start
      ? 'Give each an effectivePeriod of its own, so that one ends on the day before the other begins.'
      : `End version ${first.origin.version} on ${dayBefore(begins)}, the day before version ${second.origin.version} begins.`;
  findings.error(
    'effectivePeriod',
    'versions-overlap',
    `versions ${first.origin.version} and ${second.origin.version} of ${layer.origin.url} are in force on one and the same day`,
    cure,
  );
}

/** Merges the layers as they are in force together, one policy for every stretch of time. */
export function mergeVersions(layers: readonly Layer[], list: LintFinding[], extent: Extent): Policy {
  const stack = [...layers].sort((a, b) => a.origin.layer - b.origin.layer);
  const starts = new Set(stack.flatMap(({ origin: { effective } }) => effective?.start ?? []));
  const ends = stack.flatMap(({ origin: { effective } }) =>
    effective?.end === undefined ? [] : [dayAfter(effective.end)],
  );
  const days = [...new Set([...starts, ...ends])].sort();
  if (days.length === 0) return merge(stack, list, extent);
  const stretches = [undefined, ...days].map((from) => {
    const found: LintFinding[] = [];
    const inForce = stack.filter((layer) => isInForce(layer, from));
    return { from, found, policy: merge(inForce, found, extent) };
  });
  report(stretches, list);
  const versions = stretches.map(({ from, policy }): PolicyVersion =>
    from === undefined ? { policy } : { from, policy },
  );
  const newest = versions.findLast(({ from }) => from !== undefined && starts.has(from)) ?? versions[0];
  return { ...(newest?.policy ?? merge(stack, [], extent)), versions };
}

/** Whether a layer is in force on a day; before every day that is named where `day` is undefined. */
function isInForce({ origin: { effective } }: Layer, day: string | undefined): boolean {
  if (day === undefined) return effective?.start === undefined;
  return (effective?.start ?? '') <= day && (effective?.end === undefined || day <= effective.end);
}

/** Every finding once; one that holds only for a part of the time says from when. */
function report(
  stretches: readonly { readonly from: string | undefined; readonly found: readonly LintFinding[] }[],
  list: LintFinding[],
): void {
  const seen = new Set<string>();
  for (const { from, found } of stretches) {
    for (const finding of found) {
      const key = JSON.stringify(finding);
      if (seen.has(key)) continue;
      seen.add(key);
      const always = stretches.every((other) => other.found.some((one) => JSON.stringify(one) === key));
      const when = from === undefined ? '' : ` This is so from ${from} on.`;
      list.push(always ? finding : { ...finding, message: `${finding.message}${when}` });
    }
  }
}
