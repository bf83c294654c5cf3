import type { CodedElement } from '../../model/sentences/issues.js';
import type { UnderstandingSentences } from '../../model/sentences/understanding.js';
import type { Wordings } from '../language.js';

export const understanding: Wordings<keyof UnderstandingSentences> = {
  'not-understood-head': ({ resources, kinds }) =>
    `Not understood: ${resources} ${resources === 1 ? 'resource' : 'resources'}${kinds === 1 ? '' : ` of ${kinds} kinds`}. Care or signs charted in ${resources === 1 ? 'it' : 'them'} count here for nothing: look there before you rely on this list.`,
  'not-understood-kind': ({ count, example, ...element }) =>
    `${count} × ${elementText(element)}${example === undefined ? '' : `, ${count === 1 ? '' : 'such as '}${example}`}`,
  'not-understood-more': ({ kinds }) =>
    `and ${kinds} ${kinds === 1 ? 'kind' : 'kinds'} more: the JSON answer has all of them`,
  'no-line-found': ({ devices }) =>
    `No line was found, so nothing is asked for anybody. ${devices === 0 ? 'There is no Device in the input.' : `The input has ${devices} ${devices === 1 ? 'Device, which is' : 'Devices, none of which is'} ${devices === 1 ? 'no ' : 'a '}known line.`}`,
  'other-business': ({ counts }) =>
    `Of other business, and not read: ${counts.map(({ resourceType, count }) => `${count} ${resourceType}`).join(', ')}.`,
};

/** `Procedure.code “Line flush” (http://ward.example/codes|FL-1)`. */
export function elementText({ path, system, coded, text }: CodedElement): string {
  const code = coded === undefined ? undefined : system === undefined ? coded : `${system}|${coded}`;
  if (text !== undefined) return `${path} “${text}”${code === undefined ? '' : ` (${code})`}`;
  return code === undefined ? `${path} that is not given` : `${path} ${code}`;
}
