import { lineProperties, lineTypes, type LineType } from '@dwellward/profiles';
import { activityOf, lineTypeOf, lumensByCode, ownCodes, unknownOwnCode } from './codes.js';
import { deviceRefsOf } from './procedure-devices.js';
import { lineTypeBy, typesByInsertion } from './inferred-types.js';
import type { Indexed, ResourceIndex } from './index-resources.js';
import type { IssueList } from './issues.js';
import type { BodySite, LineLength, Lumen, Ref } from '../model/record.js';
import type { Name } from '../model/sentences.js';
import { bodySiteOf } from './body-sites.js';
import { ownerOf, reportState } from './owners.js';
import { readRange, sentUnit } from './quantities.js';
import { addTo } from '../model/gather.js';

/** What the Devices say of a line: the line itself, its lumens, its make. Events come later. */
export interface LineDevice {
  readonly ref: Ref;
  readonly name: Name;
  readonly type?: LineType;
  readonly cuffed?: boolean;
  readonly clamp?: 'integral' | 'none';
  readonly length?: LineLength;
  readonly valid: boolean;
  readonly patient?: Ref;
  /** Where it enters the body. */
  readonly bodySite?: BodySite;
  readonly lumens: readonly Lumen[];
}

type Properties = ReadonlyMap<
  string,
  { readonly quantity?: string; readonly code?: string; readonly index: number }
>;

const propertyUnits: ReadonlyMap<string, string> = new Map(
  Object.entries<string>({
    'lumen-count': '1',
    'inner-diameter': 'mm',
    length: 'cm',
    'priming-volume': 'mL',
    'external-length': 'cm',
  }),
);

/** Every line among the Devices, with its lumens in the order of their names. */
export function readLineDevices(index: ResourceIndex, issues: IssueList): LineDevice[] {
  const devices = index.all('Device');
  const lumensOf = groupLumens(devices, index, issues);
  const inserted = insertedDevices(index);
  const byInsertion = typesByInsertion(index);
  const lines: LineDevice[] = [];
  for (const device of devices) {
    const type = lineTypeOf(device.value.type);
    if (type === 'lumen') continue;
    if (type === undefined && !lumensOf.has(device.ref) && !inserted.has(device.ref)) continue;
    const own = type === 'unknown' ? undefined : type;
    const known = lineTypeBy(device.ref, own, byInsertion.get(device.ref) ?? [], issues);
    if (known === undefined) {
      const wrong = unknownOwnCode('lineType', lineTypes, device.value.type);
      issues.add(
        'unknown-code',
        device.ref,
        'Device.type',
        { code: 'line-type-not-known', ...(wrong ? { given: wrong } : {}) },
        {
          severity: 'high',
          line: device.ref,
        },
      );
    }
    lines.push(lineDevice(device, known, lumensOf.get(device.ref) ?? [], index, issues));
  }
  return lines;
}

function lineDevice(
  device: Indexed<'Device'>,
  type: LineType | undefined,
  children: readonly Indexed<'Device'>[],
  index: ResourceIndex,
  issues: IssueList,
): LineDevice {
  const { ref, value } = device;
  const properties = readProperties(device, issues);
  const patient = ownerOf(device, index, issues);
  const bodySite = bodySiteOf(ref, index, issues);
  reportState(device, index, issues);
  const cuffed = properties.get('cuffed')?.code;
  const clamp = (['integral', 'none'] as const).find((code) => code === properties.get('clamp')?.code);
  return {
    ref,
    name: named(nameOfLine(device, bodySite)),
    ...(type ? { type } : {}),
    ...(cuffed === undefined ? {} : { cuffed: cuffed === 'true' || cuffed === 'yes' }),
    ...(clamp === undefined ? {} : { clamp }),
    ...lengthOf(ref, properties),
    valid: value.status !== 'entered-in-error',
    ...(patient ? { patient } : {}),
    ...(bodySite ? { bodySite } : {}),
    lumens: readLumens(device, properties, children, issues),
  };
}

/** As the Device names it; by its type and its place in the body where it has no name, as in summaries and registries. */
function nameOfLine({ ref, value }: Indexed<'Device'>, bodySite: BodySite | undefined): string {
  const own = value.deviceName?.[0]?.name;
  if (own !== undefined) return own;
  const kind = value.type?.text ?? value.type?.coding?.find(({ display }) => display)?.display;
  if (kind === undefined) return ref;
  return bodySite === undefined ? kind : `${kind}, ${bodySite.text}`;
}

function named(name: string): Name {
  return { code: 'named', name };
}

function lengthOf(ref: Ref, properties: Properties): Pick<LineDevice, 'length'> {
  const wholeCm = properties.get('length')?.quantity;
  const externalCm = properties.get('external-length')?.quantity;
  if (wholeCm === undefined && externalCm === undefined) return {};
  return {
    length: { ref, ...(wholeCm ? { wholeCm } : {}), ...(externalCm ? { externalCm } : {}) },
  };
}

function readLumens(
  line: Indexed<'Device'>,
  properties: Properties,
  children: readonly Indexed<'Device'>[],
  issues: IssueList,
): Lumen[] {
  const counted = Number(
    properties.get('lumen-count')?.quantity ?? lumensByCode(line.value.type) ?? Number.NaN,
  );
  const inUse = children.filter(({ value }) => value.status !== 'entered-in-error');
  if (inUse.length > 0) {
    if (Number.isInteger(counted) && counted !== inUse.length) {
      issues.add(
        'conflicting-values',
        line.ref,
        'Device.property',
        { code: 'lumen-counts-differ', counted, onRecord: inUse.length },
        { line: line.ref },
      );
    }
    return inUse.map((child) => ({
      ref: child.ref,
      device: child.ref,
      name: named(child.value.deviceName?.[0]?.name ?? child.ref),
      ...volumes(readProperties(child, issues), properties),
    }));
  }
  const own = volumes(properties, properties);
  if (!Number.isInteger(counted) || counted <= 1) {
    return [{ ref: line.ref, device: line.ref, name: { code: 'the-lumen' }, ...own }];
  }
  return Array.from({ length: Math.min(counted, 5) }, (_, i) => ({
    ref: `${line.ref}#lumen-${i + 1}`,
    device: line.ref,
    name: { code: 'lumen-number', number: i + 1 } as const,
    ...own,
  }));
}

function volumes(
  own: Properties,
  line: Properties,
): Pick<Lumen, 'primingVolume' | 'innerDiameterMm' | 'lengthCm'> {
  const priming = own.get('priming-volume')?.quantity;
  const innerDiameterMm = own.get('inner-diameter')?.quantity;
  const lengthCm = own.get('length')?.quantity ?? line.get('length')?.quantity;
  return {
    ...(priming
      ? { primingVolume: { low: priming, lowIncluded: true, high: priming, highIncluded: true, unit: 'mL' } }
      : {}),
    ...(innerDiameterMm ? { innerDiameterMm } : {}),
    ...(lengthCm ? { lengthCm } : {}),
  };
}

function readProperties(device: Indexed<'Device'>, issues: IssueList): Properties {
  const found = new Map<string, { quantity?: string; code?: string; index: number }>();
  for (const [i, property] of (device.value.property ?? []).entries()) {
    const [name] = ownCodes('lineProperty', lineProperties, property.type);
    if (!name) continue;
    const code = property.valueCode?.flatMap(({ coding, text }) => coding?.[0]?.code ?? text ?? [])[0];
    const quantity = property.valueQuantity?.[0];
    const unit = propertyUnits.get(name);
    if (quantity && unit) {
      const sent = sentUnit(quantity) ?? (unit === '1' ? '1' : undefined);
      const reading = readRange(quantity, sent === '{lumens}' || sent === '{count}' ? '1' : sent, unit);
      const value = reading.ok && reading.range.low === reading.range.high ? reading.range.low : undefined;
      if (value === undefined) {
        const path = `Device.property[${i}].valueQuantity`;
        const reason = reading.ok ? ({ code: 'not-exact' } as const) : reading.reason;
        issues.add(reading.ok ? 'unreadable' : reading.code, device.ref, path, {
          code: 'property-not-used',
          property: name,
          reason,
        });
        continue;
      }
      found.set(name, { quantity: value, index: i });
    } else if (code !== undefined) {
      found.set(name, { code, index: i });
    }
  }
  return found;
}

function groupLumens(
  devices: readonly Indexed<'Device'>[],
  index: ResourceIndex,
  issues: IssueList,
): Map<Ref, Indexed<'Device'>[]> {
  const groups = new Map<Ref, Indexed<'Device'>[]>();
  for (const device of devices) {
    if (lineTypeOf(device.value.type) !== 'lumen') continue;
    const parent = index.nameOf(device.value.parent, device.ref);
    const line = index.get('Device', parent);
    if (line && lineTypeOf(line.value.type) === 'lumen') {
      const sentence = { code: 'lumen-of-lumen', parent: line.ref } as const;
      issues.add('unresolved-reference', device.ref, 'Device.parent', sentence, { severity: 'high' });
      continue;
    }
    if (!line) {
      issues.add(
        'unresolved-reference',
        device.ref,
        'Device.parent',
        { code: 'lumen-of-no-line', ...(parent === undefined ? {} : { line: parent }) },
        { severity: 'high' },
      );
      continue;
    }
    addTo(groups, line.ref, device);
  }
  return groups;
}

/** Devices that an insertion says were put in: lines even where their type is not said. */
function insertedDevices(index: ResourceIndex): Set<Ref> {
  return new Set(
    index
      .all('Procedure')
      .filter(({ value }) => activityOf(value.code) === 'insertion')
      .flatMap((procedure) => deviceRefsOf(procedure, index)),
  );
}
