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
 * @throws ConfigError with everything that is wrong with any of them.
 */
export async function loadPolicy(
  over: readonly string[],
  without: readonly DefaultLayerName[] = [],
): Promise<Policy> {
  const layers = overDefault(over, without);
  const problems: string[] = [];
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
  const reading = readPolicy(plans);
  if (reading.ok) return reading.policy;
  throw new ConfigError(
    reading.findings
      .filter(({ severity }) => severity === 'error')
      .map(
        ({ layer, path, message, cure }) =>
          `DWELLWARD_POLICY: “${layers[layer] ?? ''}”, ${path}: ${message} ${cure}`,
      ),
  );
}

function isBundled(name: string): name is BundledPlanName {
  return (bundledPlanNames as readonly string[]).includes(name);
}
