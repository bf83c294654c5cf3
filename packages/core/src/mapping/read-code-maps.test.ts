import { codeSystem, standard } from '@dwellward/profiles';
import { describe, expect, it } from 'vitest';
import { readCodeMaps } from './read-code-maps.js';

const acts = 'https://hospital.example/acts';

type Element = Record<string, unknown>;

const group = (element: Element[], target: string = codeSystem.lineCareActivity, source = acts) => ({
  source,
  target,
  element,
});
const mapOf = (...groups: object[]) => ({ resourceType: 'ConceptMap', status: 'active', group: groups });
const to = (code: string, more: Element = {}) => ({ code, equivalence: 'equivalent', ...more });
const when = (value: string) => ({ dependsOn: [{ property: 'Observation.value', value }] });

function refusalsOf(...resources: unknown[]): string[] {
  const reading = readCodeMaps(resources.map((resource, i) => ({ name: `${i + 1}.json`, resource })));
  expect(reading.ok).toBe(false);
  return reading.findings
    .filter(({ severity }) => severity === 'error')
    .map(({ map, path, message }) => `${map} ${path} ${message}`);
}

describe('a map of codes is refused, with its file and the element', () => {
  it.each<[string, unknown, RegExp]>([
    ['no resource', 'text', /^1\.json ConceptMap A ConceptMap of FHIR R4 is wanted/],
    ['another resource', { resourceType: 'ValueSet' }, /this is a ValueSet/],
    ['no group', mapOf(), /ConceptMap\.group There is no group/],
    [
      'an unknown code',
      mapOf(group([{ code: 'A', target: [to('dressing-chnage')] }])),
      /group\[0\]\.element\[0\]\.target\[0\]\.code dressing-chnage is no code of/,
    ],
    [
      'an unknown system',
      mapOf(group([{ code: 'A', target: [to('x')] }], 'https://other.example')),
      /group\[0\]\.target https:\/\/other\.example is no system/,
    ],
    [
      'a code of SNOMED CT that nothing reads',
      mapOf(group([{ code: 'A', target: [to('138875005')] }], standard.snomed)),
      /138875005 is no code of/,
    ],
    [
      'no equivalence',
      mapOf(group([{ code: 'A', target: [{ code: 'flush' }] }])),
      /target\[0\]\.equivalence One of equivalent/,
    ],
    [
      'a code mapped twice',
      mapOf(group([{ code: 'A', target: [to('flush'), to('lock')] }])),
      /target\[1\] A is mapped twice; first at 1\.json, ConceptMap\.group\[0\]\.element\[0\]\.target\[0\]/,
    ],
    [
      'one value mapped twice',
      mapOf(group([{ code: 'A', target: [to('flush', when('Y')), to('lock', when('y'))] }])),
      /mapped twice for the same value/,
    ],
    [
      'narrower without a comment (cmd-1)',
      mapOf(group([{ code: 'A', target: [to('flush', { equivalence: 'narrower' })] }])),
      /target\[0\]\.comment “narrower” needs a comment/,
    ],
    [
      'unmatched with a target',
      mapOf(group([{ code: 'A', target: [to('flush', { equivalence: 'unmatched' })] }])),
      /“unmatched” and has a target/,
    ],
    [
      'a condition that nothing knows',
      mapOf(
        group([
          { code: 'A', target: [to('flush', { dependsOn: [{ property: 'Patient.gender', value: 'x' }] })] },
        ]),
      ),
      /dependsOn\[0\]\.property Patient\.gender can’t be asked/,
    ],
    [
      'a product that nothing fills',
      mapOf(
        group([{ code: 'A', target: [to('flush', { product: [{ property: 'Task.focus', value: 'x' }] })] }]),
      ),
      /product\[0\]\.property Task\.focus/,
    ],
    [
      'a line type that is none',
      mapOf(
        group([
          {
            code: 'A',
            target: [
              to('flush', {
                product: [{ property: 'Device.type', system: codeSystem.lineType, value: 'hose' }],
              }),
            ],
          },
        ]),
      ),
      /product\[0\]\.value hose/,
    ],
    [
      'other codes for what is not mapped',
      mapOf({ ...group([{ code: 'A', target: [to('flush')] }]), unmapped: { mode: 'fixed', code: 'flush' } }),
      /unmapped\.mode/,
    ],
    [
      'a modifier that can’t be honoured',
      { ...mapOf(group([{ code: 'A', target: [to('flush')] }])), modifierExtension: [{ url: 'x' }] },
      /modifierExtension/,
    ],
  ])('%s', (_, resource, message) => {
    expect(refusalsOf(resource).join('\n')).toMatch(message);
  });

  it('a code mapped in two files', () => {
    const one = mapOf(group([{ code: 'A', target: [to('flush')] }]));
    const other = mapOf(group([{ code: 'A', target: [to('lock')] }]));
    expect(refusalsOf(one, other).join()).toMatch(/^2\.json .*A is mapped twice; first at 1\.json/);
  });

  it('two texts that are written alike', () => {
    const texts = mapOf(
      group(
        [
          { code: 'Line flushed', target: [to('flush')] },
          { code: 'line  FLUSHED!', target: [to('lock')] },
        ],
        codeSystem.lineCareActivity,
        codeSystem.chartedText,
      ),
    );
    expect(refusalsOf(texts).join()).toMatch(/mapped twice/);
  });
});

describe('an equivalence', () => {
  const reading = (equivalence: string) => {
    const target = { ...to('flush', { equivalence }), comment: 'in a sense' };
    return readCodeMaps([{ name: 'm', resource: mapOf(group([{ code: 'A', target: [target] }])) }]);
  };
  it.each(['equivalent', 'equal', 'wider', 'subsumes'])('%s lets the target stand for the source', (one) => {
    const read = reading(one);
    expect(read.ok && read.maps.ofCode(acts, 'A')?.targets.map(({ code }) => code)).toEqual(['flush']);
    expect(read.findings).toEqual([]);
  });
  it.each(['relatedto', 'narrower', 'specializes', 'inexact'])('%s is not used, and that is said', (one) => {
    const read = reading(one);
    expect(read.ok && (read.maps.ofCode(acts, 'A')?.targets ?? [])).toEqual([]);
    expect(read.findings.map(({ severity, path }) => `${severity} ${path}`)).toEqual([
      'warning ConceptMap.group[0].element[0].target[0].equivalence',
    ]);
  });
});
