import { policyExtension } from '@dwellward/profiles';
import type { Findings } from './findings.js';
import { shown } from './json.js';
import type { Certainty, Citation } from './model.js';
import { isPlaceholder, saysWhy } from './reason.js';
import { reportExtension } from './read-settings.js';
import type { Documentation } from './shapes.js';

/** The words by which a rule’s documentation says that no source was published. */
export const unsourcedWords = 'common practice, no source';

/** What stands behind a rule. */
export interface Sources {
  readonly citations: readonly Citation[];
  readonly notes: readonly string[];
  /** The reasons for loosening a published rule, or for not taking the protective reading; notes too. */
  readonly reasons: readonly string[];
}

const certainties: readonly Certainty[] = ['seen', 'from-memory', 'common-practice'];

/**
 * Reads the documentation of an action. A citation is a published source, `seen` unless it says that it is from memory;
 * documentation that is common practice says that there is none; everything else is a note.
 */
export function readDocumentation(documentation: readonly Documentation[], findings: Findings): Sources {
  const citations: Citation[] = [];
  const notes: string[] = [];
  const reasons: string[] = [];
  documentation.forEach((one, index) => {
    const at = findings.at(`documentation[${index}]`);
    const { type, citation, display, label, url } = one;
    const text = [citation, display, label].find((part) => part !== undefined && part.trim() !== '')?.trim();
    const stated = certaintyOf(one, at);
    if (text === undefined) {
      at.warning(
        '',
        'no-text',
        '{element} says nothing',
        'Give citation, display or label, or leave it out.',
      );
      return;
    }
    if (isPlaceholder(text)) {
      at.error(
        '',
        'placeholder',
        `${shown(text)} stands for a text that is still to come`,
        'Write it, or leave the element out.',
      );
      return;
    }
    if (type === 'justification' && !saysWhy(text)) {
      at.error(
        '',
        'no-reason',
        `${shown(text)} is no reason`,
        'Say why in a sentence: whoever reads the due list has to understand it.',
      );
      return;
    }
    if (type === 'justification') reasons.push(text);
    const certainty =
      type === 'citation' || type === 'documentation' ? sure(type, stated, text, at) : undefined;
    if (certainty === undefined) notes.push(text);
    else citations.push({ text, ...(url === undefined ? {} : { url }), certainty });
    if (stated !== undefined && certainty === undefined)
      at.warning(
        'extension',
        'unused-element',
        `source-certainty of ${type} is not used`,
        'Give it to a citation.',
      );
  });
  return { citations, notes, reasons };
}

/** How sure a source is; undefined where the documentation names none. */
function sure(
  type: 'citation' | 'documentation',
  stated: Certainty | undefined,
  text: string,
  at: Findings,
): Certainty | undefined {
  if (type === 'documentation') return stated === 'common-practice' ? stated : undefined;
  if (stated === 'common-practice' || (stated === undefined && text.toLowerCase().includes(unsourcedWords))) {
    at.warning(
      'type',
      'citation-without-source',
      'A citation names a source, and there is none',
      'Give it as type documentation with the extension source-certainty, valueCode common-practice.',
    );
    return 'common-practice';
  }
  return stated ?? (/from memory/i.test(text) ? 'from-memory' : 'seen');
}

function certaintyOf({ extension = [] }: Documentation, at: Findings): Certainty | undefined {
  let found: Certainty | undefined;
  extension.forEach((one, index) => {
    const here = at.at(`extension[${index}]`);
    if (one.url !== policyExtension.sourceCertainty) return reportExtension(one.url, here);
    const value = certainties.find((known) => known === one['valueCode']);
    if (value === undefined || found !== undefined) {
      const message =
        found === undefined ? `${shown(one['valueCode'])} is not a certainty` : '{element} stands here twice';
      return here.error('valueCode', 'bad-extension', message, `Use one of: ${certainties.join(', ')}.`);
    }
    found = value;
  });
  return found;
}
