import { base } from '@dwellward/profiles';
import type { Bundle, CodeableConcept, Measure, MeasureReport, MeasureReportGroup } from 'fhir/r4.js';
import { intervalMethods, type Interval } from '../statistics/poisson.js';
import type { Figures, UnitFigures } from '../unit-figures.js';
import { escaped } from './escape.js';

const measureUrl = `${base}/Measure/central-line-infections`;
const populations = 'http://terminology.hl7.org/CodeSystem/measure-population';

/**
 * The figures as FHIR R4: a Bundle of the Measure and its MeasureReport, with a group for each unit. Population counts are
 * patient days, line days and proposed infections of a central line; the score is the rate of 1,000 line days.
 *
 * - Cautions: FHIR has no element for an interval, for what was left out or for a caution: they stand in the narrative, which
 *   has to be shown with the numbers. A unit without line days has no score.
 * - Source: HL7 FHIR R4, Measure and MeasureReport.
 *
 * @example
 * ```ts
 * const none = { lines: [], issues: [], notUnderstood: [], otherBusiness: [], unitStays: [] };
 * const figures = unitFigures(none, [], { from: '2026-04-01', to: '2026-04-30', zone: 'Europe/Berlin' });
 * measureBundle(figures).entry?.map(({ resource }) => resource?.resourceType); // ['Measure', 'MeasureReport']
 * ```
 */
export function measureBundle(figures: Figures): Bundle<Measure | MeasureReport> {
  const report: MeasureReport = {
    resourceType: 'MeasureReport',
    text: { status: 'generated', div: narrative(figures) },
    status: 'complete',
    type: 'summary',
    measure: measureUrl,
    period: { start: figures.days.period.from, end: figures.days.period.to },
    ...(figures.units.length > 0 ? { group: figures.units.map(groupOf) } : {}),
  };
  return {
    resourceType: 'Bundle',
    type: 'collection',
    entry: [{ resource: measure() }, { resource: report }],
  };
}

const population = (code: string, display: string): CodeableConcept => ({
  coding: [{ system: populations, code, display }],
});
const patientDays = population('initial-population', 'Initial Population');
const lineDays = population('denominator', 'Denominator');
const infections = population('numerator', 'Numerator');

function groupOf({ unit, rate, ...counts }: UnitFigures): MeasureReportGroup {
  return {
    code: { text: unit },
    population: [
      { code: patientDays, count: counts.patientDays },
      { code: lineDays, count: counts.lineDays },
      { code: infections, count: counts.infections },
    ],
    ...(rate
      ? { measureScore: { value: Number(rate.per1000.toFixed(3)), unit: 'per 1,000 line days' } }
      : {}),
  };
}

function measure(): Measure {
  const criteria = (expression: string) => ({ language: 'text/plain', expression });
  return {
    resourceType: 'Measure',
    url: measureUrl,
    name: 'CentralLineInfections',
    title: 'Bloodstream infections of central lines',
    status: 'active',
    description:
      'Proposed bloodstream infections of central lines for each 1,000 line days, by the surveillance definition of January 2026. A person confirms each infection.',
    scoring: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/measure-scoring', code: 'ratio' }] },
    group: [
      {
        population: [
          { code: patientDays, criteria: criteria('Calendar days of patients on the unit') },
          {
            code: lineDays,
            criteria: criteria('Those of them on which a central line was in; several lines count once'),
          },
          { code: infections, criteria: criteria('Proposed bloodstream infections of a central line') },
        ],
      },
    ],
  };
}

function narrative({ units, leftOut, cautions }: Figures): string {
  const list = (texts: readonly string[]) =>
    texts.length === 0 ? '' : `<ul>${texts.map((text) => `<li>${escaped(text)}</li>`).join('')}</ul>`;
  const said = units.map(({ unit, rate }) =>
    rate
      ? `${unit}: ${rate.events} in ${rate.days} line days, ${rate.per1000.toFixed(2)} of 1,000 (95 %: ${between(rate.interval)}; ${intervalMethods[rate.method]})`
      : `${unit}: no line days`,
  );
  const left = leftOut.map(
    ({ ref, counted, reason }) => `${counted ? 'counted' : 'left out'}: ${ref}: ${reason}`,
  );
  return `<div xmlns="http://www.w3.org/1999/xhtml"><p>Proposed infections of central lines</p>${list(said)}<p>Left out, or counted on an assumption: ${left.length}</p>${list(left)}<p>Cautions</p>${list(cautions)}</div>`;
}

function between({ lower, upper }: Interval): string {
  return lower === undefined ? `up to ${upper.toFixed(2)}` : `${lower.toFixed(2)} to ${upper.toFixed(2)}`;
}
