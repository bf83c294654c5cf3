import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';

/** What takes a control out: a place in a source file, or a rule of the bundled policies by its id. */
export type Switch =
  { readonly file: string; readonly find: string; readonly replace: string } | { readonly rule: string };

interface Action {
  readonly id?: string;
  action?: Action[];
}

/** The plans as the package embeds them, one entry a line with its JSON as text, without the rule or group of this id. */
function withoutRule(code: string, rule: string): string {
  let taken = 0;
  const rid = (of: { action?: Action[] }): void => {
    if (of.action === undefined) return;
    const kept = of.action.filter(({ id }) => id !== rule);
    taken += of.action.length - kept.length;
    of.action = kept;
    for (const action of kept) rid(action);
  };
  const lines = code.split('\n').map((line) => {
    const literal = /^( {2}"[a-z0-9-]+": )(".*"),$/.exec(line);
    if (literal === null) return line;
    const plan = JSON.parse(JSON.parse(literal[2] as string) as string) as { action?: Action[] };
    rid(plan);
    return `${literal[1] ?? ''}${JSON.stringify(JSON.stringify(plan))},`;
  });
  if (taken === 0) throw new Error(`no bundled policy has a rule ${rule}`);
  return lines.join('\n');
}

/**
 * Takes the controls of one hazard out of what is tested, so that its test can be seen to fail. `DWELLWARD_WITHOUT` names
 * a file with the switches as JSON; without it nothing is changed. A switch that finds nothing is an error: the test would
 * then pass for want of a switch, not for want of a control.
 */
export function withoutControl(): Plugin[] {
  const named = process.env['DWELLWARD_WITHOUT'];
  if (named === undefined) return [];
  const switches = JSON.parse(readFileSync(named, 'utf8')) as Switch[];
  return [
    {
      name: 'without-control',
      enforce: 'pre',
      transform(code, id) {
        let changed = code;
        for (const each of switches) {
          if ('rule' in each) {
            if (id.endsWith('packages/policy/src/generated/plans.ts'))
              changed = withoutRule(changed, each.rule);
          } else if (id.endsWith(`/${each.file}`)) {
            if (!changed.includes(each.find)) throw new Error(`${each.file} does not contain ${each.find}`);
            changed = changed.replaceAll(each.find, each.replace);
          }
        }
        return changed === code ? undefined : { code: changed, map: null };
      },
    },
  ];
}
