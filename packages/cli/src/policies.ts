import {
  bundledPlan,
  bundledPlanNames,
  defaultLayerNames,
  isDefaultLayer,
  overDefault,
  readPolicy,
  type LintFinding,
  type Policy,
} from '@dwellward/policy';
import { oneLine, policyAt, type AsOf } from '@dwellward/core';
import { CliError } from './errors.js';
import type { Io } from './io.js';
import { effectiveText, lessText } from './rules.js';
import { bytesOf, decoded, TextError, wholeText } from './text.js';

/** One layer by the name of a bundled plan, or by the path of a PlanDefinition file. */
export async function readPlan(name: string): Promise<unknown> {
  const bundled = bundledPlanNames.find((known) => known === name);
  if (bundled) return bundledPlan(bundled);
  let text: string;
  try {
    text = await wholeText(decoded(bytesOf(name), true));
  } catch (cause) {
    if (cause instanceof TextError)
      throw new CliError('policy-refused', `${name}: ${cause.message}.`, { cause });
    throw new CliError(
      'policy-refused',
      `${name}: there is no such file, and no bundled policy of that name (${bundledPlanNames.join(', ')}).`,
      { cause },
    );
  }
  try {
    return JSON.parse(text) as unknown;
  } catch (cause) {
    throw new CliError(
      'policy-refused',
      `${name}: it is not JSON (${cause instanceof Error ? cause.message : 'unreadable'}).`,
      { cause },
    );
  }
}

const noPolicy: Policy = { layers: [], rules: [], labStaleAfter: { value: 7, unit: 'd' } };

/** The options that say which layers lie below those that are named. */
export const layerOptions = {
  without: { type: 'string', multiple: true },
  'only-policy': { type: 'boolean' },
} as const;

export interface LayerValues {
  readonly without?: string[] | undefined;
  readonly 'only-policy'?: boolean | undefined;
}

/** What the help of every command says of them. */
export const layerHelp = `  --without     leave out one of the layers that everybody gets: ${defaultLayerNames.join(', ')}; may be repeated
  --only-policy leave them all out but those that are named`;

/** The names of the layers in force, the lowest first: those of the default unless they are left out, then those given. */
export function layersOver(layers: readonly string[], values: LayerValues): readonly string[] {
  const without = values.without ?? [];
  const known = without.filter(isDefaultLayer);
  const unknown = without.find((name) => !isDefaultLayer(name));
  if (unknown !== undefined)
    throw new CliError('usage', `--without ${unknown}: one of ${defaultLayerNames.join(', ')}.`);
  return values['only-policy'] ? layers : overDefault(layers, known);
}

/**
 * The merged policy: the layers of the default, unless they are left out, and those given over them in their order.
 * Plans with one url are versions of one layer. `mayBeEmpty` lets no layer at all stand for a policy that asks for
 * nothing.
 */
export async function loadPolicy(
  layers: readonly string[],
  values: LayerValues,
  io: Io,
  mayBeEmpty = false,
): Promise<Policy> {
  const names = layersOver(layers, values);
  if (names.length === 0 && mayBeEmpty) return noPolicy;
  if (names.length === 0)
    throw new CliError('usage', 'Every bundled layer is left out: give at least one --policy.');
  for (const name of values.without ?? []) sayOnce(`warning: left out by --without: ${name}.\n`, io);
  const reading = readPolicy(await Promise.all(names.map(readPlan)));
  const told = reading.findings.filter(({ severity }) => severity !== 'information');
  if (!reading.ok) {
    throw new CliError(
      'policy-refused',
      ['The policy is refused:', ...told.map((finding) => findingText(finding, names))].join('\n'),
    );
  }
  for (const finding of told) sayOnce(`${findingText(finding, names)}\n`, io);
  return reading.policy;
}

const said = new WeakMap<Io, Set<string>>();

/** A command may read a policy with and without a layer: what is to be known of both is said once. */
function sayOnce(text: string, io: Io): void {
  const before = said.get(io) ?? new Set();
  said.set(io, before);
  if (before.has(text)) return;
  before.add(text);
  io.warn(text);
}

/** Tells of the layers of which no version is in force at the moment: they ask for nothing new, so nobody must think they do. */
export function reportNotInForce(policy: Policy, when: AsOf, io: Io): void {
  const now = new Set(policyAt(policy, when).layers.map(({ url }) => url));
  const all = (policy.versions ?? []).flatMap((version) => version.policy.layers);
  const missing = new Map(all.filter(({ url }) => !now.has(url)).map((layer) => [layer.url, layer]));
  for (const layer of missing.values()) {
    io.warn(
      `warning: no version of ${oneLine(`${layer.title} (${layer.url})`)} is in force at ${when.asOf}: ${effectiveText(layer)}. It asks for nothing new.\n`,
    );
  }
}

/** One finding for people: where, what, cure. */
export function findingText(finding: LintFinding, names: readonly string[]): string {
  const where = [names[finding.layer], finding.path].filter(Boolean).join(', ');
  const rule = finding.ruleId ? ` (rule ${finding.ruleId})` : '';
  const message = finding.loosened === undefined ? finding.message : lessText(finding.loosened);
  return oneLine(`${finding.severity}: ${where}${rule}: ${message} ${finding.cure}`);
}
