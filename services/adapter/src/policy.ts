import { readFile } from 'node:fs/promises';
import {
  bundledPlan,
  bundledPlanNames,
  overDefault,
  readPolicy,
  type BundledPlanName,
  type DefaultLayerName,
  type Policy,
} from '@dwellward/policy';
import { ConfigError } from './config.js';

/**
 * Reads and layers the policy that the settings name. Files with one url are versions of one layer: each is in force in
 * its effectivePeriod, by the unit’s calendar, and due care judges every item by the version in which its window opened.
 * @param over names of bundled layers and paths of PlanDefinition files, to lie over the default in this order.
 * @param without layers of the default to leave out.
 * @param unapproved those of `over` that may be used though they are no approved policy (draft, experimental, retired).
 * @throws ConfigError with everything that is wrong with any of them.
 */
export async function loadPolicy(
  over: readonly string[],
  without: readonly DefaultLayerName[] = [],
  unapproved: readonly string[] = [],
): Promise<Policy> {
  const layers = overDefault(over, without);
  const plans = await loadPlans(
    layers,
    unapproved
      .filter((name) => !over.includes(name))
      .map((name) => `DWELLWARD_POLICY_UNAPPROVED: “${name}” is not in DWELLWARD_POLICY.`),
  );
  const reading = readPolicy(plans);
  if (reading.ok) {
    const refused = layers.flatMap((layer, at) => unapprovedText(layer, plans[at] as Plan, unapproved) ?? []);
    if (refused.length > 0) throw new ConfigError(refused);
    return reading.policy;
  }
  throw new ConfigError(
    reading.findings
      .filter(({ severity }) => severity === 'error')
      .map(
        ({ layer, path, message, cure }) =>
          `DWELLWARD_POLICY: “${layers[layer] ?? ''}”, ${path}: ${message} ${cure}`,
      ),
  );
}

/**
 * The plans of layers, each a bundled one or a file.
 * @param found what is wrong already. @throws ConfigError
 */
export async function loadPlans(
  layers: readonly string[],
  found: readonly string[] = [],
): Promise<readonly unknown[]> {
  const problems = [...found];
  const plans: unknown[] = [];
  for (const layer of layers) {
    try {
      plans.push(isBundled(layer) ? bundledPlan(layer) : JSON.parse(await readFile(layer, 'utf8')));
    } catch (error) {
      const why = error instanceof SyntaxError ? `is not JSON: ${error.message}` : 'can’t be read';
      problems.push(
        `DWELLWARD_POLICY: “${layer}” is no bundled layer (${bundledPlanNames.join(', ')}), and the file of that name ${why}.`,
      );
    }
  }
  if (problems.length > 0) throw new ConfigError(problems);
  return plans;
}

type Plan = { readonly status?: string; readonly experimental?: boolean };

/** Why a layer is refused: care of patients needs a policy that somebody has approved. */
function unapprovedText(
  layer: string,
  { status, experimental }: Plan,
  allowed: readonly string[],
): string | undefined {
  const state = status !== 'active' ? status : experimental === true ? 'experimental' : undefined;
  if (state === undefined || allowed.includes(layer)) return undefined;
  return `DWELLWARD_POLICY: “${layer}” is ${state}. Tasks are written for patients only by a plan that is active and not experimental, once whoever may decide it has approved it. To try it all the same, name it in DWELLWARD_POLICY_UNAPPROVED.`;
}

function isBundled(name: string): name is BundledPlanName {
  return (bundledPlanNames as readonly string[]).includes(name);
}
