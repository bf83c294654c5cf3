import { policyExtension, substanceCodes, type SubstanceCode } from '@dwellward/profiles';
import type { Findings } from './findings.js';
import { isObject, listOf, shown } from './json.js';
import type { ComputedInput, Step, Work, WorkSubstance } from './model.js';
import { suggestion } from './nearest.js';
import { reportExtension } from './read-settings.js';
import type { Extension } from './shapes.js';
import { readStep } from './steps.js';

/** Work of an action that names no ActivityDefinition. */
export const noWork: Work = { computed: [], supplies: [], cautions: [] };

const computedInputs: readonly ComputedInput[] = [
  'flush-volume',
  'lock-volume',
  'syringe-size',
  'thrombolytic-dose',
];

const ofWork: ReadonlySet<string> = new Set([
  policyExtension.workComputed,
  policyExtension.workStep,
  policyExtension.workSupply,
  policyExtension.workCaution,
  policyExtension.workSubstance,
]);

/** Whether any of the extensions says what the Task carries. */
export function hasWork(extensions: readonly Extension[]): boolean {
  return extensions.some(({ url }) => ofWork.has(url));
}

/** Reads what the Task carries: computed volumes, steps, supplies and cautions, each in the order in which it is given. */
export function readWork(extensions: readonly Extension[], findings: Findings): Work {
  const computed: ComputedInput[] = [];
  const steps: Step[] = [];
  const supplies: string[] = [];
  const cautions: string[] = [];
  const substances = new Map<SubstanceCode, WorkSubstance>();
  extensions.forEach((extension, index) => {
    const at = findings.at(`extension[${index}]`);
    switch (extension.url) {
      case policyExtension.workComputed: {
        const wanted = computedInputs.find((input) => input === extension['valueCode']);
        if (wanted !== undefined) computed.push(wanted);
        else {
          const given = extension['valueCode'];
          const cure = suggestion(typeof given === 'string' ? given : '', computedInputs);
          at.error('valueCode', 'bad-extension', `${shown(given)} is not a computed value`, cure);
        }
        return;
      }
      case policyExtension.workStep: {
        const step = stepOf(extension, at);
        if (step !== undefined) steps.push(step);
        return;
      }
      case policyExtension.workSupply:
      case policyExtension.workCaution: {
        const text = textOf(extension, at);
        if (text !== undefined)
          (extension.url === policyExtension.workSupply ? supplies : cautions).push(text);
        return;
      }
      case policyExtension.workSubstance: {
        const one = substanceOf(extension, at);
        if (one !== undefined) addTo(substances, one);
        return;
      }
      default:
        return reportExtension(extension.url, at);
    }
  });
  const used = [...substances.values()].sort((a, b) => (a.substance < b.substance ? -1 : 1));
  return {
    computed,
    ...(steps.length > 0 ? { steps } : {}),
    supplies,
    cautions,
    ...(used.length > 0 ? { substances: used } : {}),
  };
}

/** What is said of a substance in several places is said of it once. */
function addTo(substances: Map<SubstanceCode, WorkSubstance>, one: WorkSubstance): void {
  const before = substances.get(one.substance);
  const both = <Value>(a: readonly Value[] = [], b: readonly Value[]) => [...new Set([...a, ...b])];
  substances.set(one.substance, {
    substance: one.substance,
    computed: both(before?.computed, one.computed),
    supplies: both(before?.supplies, one.supplies),
  });
}

/** What may stand in a work-substance. */
const substanceParts: ReadonlySet<unknown> = new Set(['substance', 'computed', 'supply']);
const substancePartsCure = 'Use substance, computed and supply.';

function substanceOf(extension: Extension, at: Findings): WorkSubstance | undefined {
  const parts = listOf(extension['extension']).map((part, index) => {
    const { url, valueCode, valueString } = isObject(part) ? part : {};
    return { url, valueCode, valueString, at: at.at(`extension[${index}]`) };
  });
  for (const { url, at: here } of parts)
    if (!substanceParts.has(url))
      here.error(
        'url',
        'bad-extension',
        `${shown(url)} is no part of what a substance needs`,
        substancePartsCure,
      );
  const codesOf = (url: string) => parts.filter((part) => part.url === url).map((part) => part.valueCode);
  const given = codesOf('substance')[0];
  const substance = substanceCodes.find((code) => code === given);
  if (substance === undefined) {
    const cure = suggestion(typeof given === 'string' ? given : '', substanceCodes);
    return at.error('extension', 'bad-extension', `${shown(given)} is not a substance`, cure);
  }
  const named = codesOf('computed');
  const computed = computedInputs.filter((input) => named.includes(input));
  const wrong = named.find((input) => !computedInputs.some((known) => known === input));
  if (wrong !== undefined) {
    const cure = suggestion(typeof wrong === 'string' ? wrong : '', computedInputs);
    return at.error('extension', 'bad-extension', `${shown(wrong)} is not a computed value`, cure);
  }
  const supplies = parts.flatMap((part) => {
    const text = part.url === 'supply' ? textOf(part, part.at) : undefined;
    return text === undefined ? [] : [text];
  });
  return { substance, computed, supplies };
}

function textOf({ valueString: text }: Record<string, unknown>, at: Findings): string | undefined {
  if (typeof text === 'string' && text.trim() !== '') return text;
  return at.error(
    'valueString',
    'bad-extension',
    `${shown(text)} is not a text`,
    'Write the text as it is to be read.',
  );
}

function stepOf(extension: Extension, at: Findings): Step | undefined {
  const expression = extension['valueExpression'];
  if (expression === undefined) {
    const text = textOf(extension, at);
    return text === undefined ? undefined : [text];
  }
  const here = at.at('valueExpression');
  if (extension['valueString'] !== undefined)
    return here.error('', 'bad-extension', '{element} stands beside a valueString', 'Keep one of the two.');
  if (!isObject(expression) || expression['language'] !== 'text/fhirpath') {
    return here.error(
      'language',
      'not-fhirpath',
      'A step is not in text/fhirpath',
      'Give the language text/fhirpath, or the step as valueString.',
    );
  }
  const reading = readStep(typeof expression['expression'] === 'string' ? expression['expression'] : '');
  return reading.ok ? reading.step : here.error('expression', reading.code, reading.message, reading.cure);
}
