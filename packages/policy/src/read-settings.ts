import { base, policyExtension } from '@dwellward/profiles';
import type { Findings } from './findings.js';
import type { Scope, Span } from './model.js';
import { suggestion } from './nearest.js';
import type { Placed } from './read-group.js';
import type { Extension } from './shapes.js';
import { comparableMinutes, readSpan } from './spans.js';

/** What a rule’s extensions say. */
export interface Settings {
  readonly scopes: readonly Scope[];
  readonly whenUnknown: 'protective' | 'default';
  readonly lead?: Span;
  readonly minimumSpacing?: Span;
}

const scopes: readonly Scope[] = ['line', 'lumen', 'exit-site', 'incision'];

/** Reads the extensions of an action; what is wrong with them becomes an error. */
export function readSettings(extensions: readonly Placed<Extension>[]): Settings {
  const found: Scope[] = [];
  let settings: Omit<Settings, 'scopes'> = { whenUnknown: 'protective' };
  const seen = new Set<string>();
  for (const { value: extension, at } of extensions) {
    const { url } = extension;
    if (url === policyExtension.ruleScope) {
      const scope = scopes.find((known) => known === extension['valueCode']);
      if (scope === undefined)
        at.error('valueCode', 'bad-extension', 'is not a scope', `Use one of: ${scopes.join(', ')}.`);
      else if (found.includes(scope)) reportTwice(scope, at);
      else found.push(scope);
      continue;
    }
    if (seen.has(url)) reportTwice(url, at);
    seen.add(url);
    if (url === policyExtension.ruleWhenUnknown) {
      const value = extension['valueCode'];
      if (value === 'protective' || value === 'default') settings = { ...settings, whenUnknown: value };
      else
        at.error(
          'valueCode',
          'bad-extension',
          'is not a reading of unknown facts',
          'Use protective or default.',
        );
    } else if (url === policyExtension.ruleLead) {
      const lead = readExtensionSpan(extension, at);
      if (lead !== undefined) settings = { ...settings, lead };
    } else if (url === policyExtension.ruleMinimumSpacing) {
      const minimumSpacing = readExtensionSpan(extension, at);
      if (minimumSpacing !== undefined) settings = { ...settings, minimumSpacing };
    } else reportExtension(url, at);
  }
  return { ...settings, scopes: found.length > 0 ? found : ['line'] };
}

function reportTwice(what: string, at: Findings): void {
  at.error('url', 'doubled-extension', `${what} stands here twice`, 'Keep one.');
}

/** Says of an extension that it is not used; with the nearest of ours where it was meant to be one. */
export function reportExtension(url: string, findings: Findings): void {
  const cure = url.startsWith(base)
    ? suggestion(url, Object.values(policyExtension))
    : 'Leave it out, or say in documentation what it stands for.';
  findings.warning('url', 'unused-extension', `${url} is not used here`, cure);
}

/** The Duration of an extension; what is wrong with it becomes an error. */
export function readExtensionSpan(extension: Extension, findings: Findings): Span | undefined {
  return readDuration(
    extension['valueDuration'],
    findings.at('valueDuration'),
    'Give a Duration, such as 96 h.',
  );
}

/** A Duration; what is wrong with it becomes an error, and a shorter reading of it is pointed out. */
export function readDuration(value: unknown, findings: Findings, cure: string): Span | undefined {
  const reading = readSpan(value);
  if (!reading.ok) return findings.error(reading.path, 'bad-duration', reading.message, cure);
  if (reading.note !== undefined)
    findings.information(
      '',
      'shorter-reading',
      reading.note,
      'Give one exact value where another reading is wanted.',
    );
  return reading.span;
}

/** Points out a lead or a minimum spacing that leaves nothing of the interval. */
export function checkWindow(every: Span, { lead, minimumSpacing }: Settings, findings: Findings): void {
  const interval = comparableMinutes(every);
  if (lead !== undefined && comparableMinutes(lead) >= interval) {
    findings.warning(
      'extension',
      'window-too-long',
      'the lead is as long as the interval',
      'Give a shorter rule-lead, or leave it out for a quarter of the interval.',
    );
  }
  if (minimumSpacing !== undefined && comparableMinutes(minimumSpacing) > interval) {
    findings.warning(
      'extension',
      'window-too-long',
      'the minimum spacing is longer than the interval',
      'Give a shorter rule-minimum-spacing or a longer interval.',
    );
  }
}
