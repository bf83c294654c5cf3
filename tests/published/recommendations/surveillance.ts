import { calculates } from './calculates.js';
import { kept, later, recommendationsOf, type Answer } from './model.js';

const part = later('surveillance: the unit’s figures');
const of = (...texts: string[]): [string, Answer][] => texts.map((text) => [text, part]);

export const surveillance = [
  ...recommendationsOf('CDC NHSN manual, January 2026, chapters 2 and 4', 'seen', [
    ...of(
      'Central line: where the tip lies and what it is used for',
      'Devices that are excluded',
      'Type of line: permanent, temporary, umbilical',
      'Access of a line',
      'Days of a central line',
      'Eligible line from day 3 on',
      'Last eligible day: the day after removal',
      'A full day without a line resets the count',
      'Taking the needle out of a port is ignored',
      'Migration is ignored',
      'LCBI-1',
      'Test other than culture only without a culture within 2 days before to 1 day after',
      'LCBI-2',
      'LCBI-3',
      'Separate occasions',
      'A single commensal is a contaminant',
      'Organisms that are excluded',
      'Speciated and unspeciated organisms match',
      'MBI-LCBI-1',
      'MBI-LCBI-2 and -3',
      'Window for neutropenia',
    ),
    [
      'Absolute neutrophil count: leucocytes × (segmented % + bands %) / 100',
      kept('calculator absolute-neutrophil-count', () =>
        calculates(
          'absolute-neutrophil-count',
          { leucocytes: '2', leucocytesUnit: 'k/mm3', segmentedPercent: '20', bandsPercent: '20' },
          { value: '800' },
        ),
      ),
    ],
    ...of(
      'Graft-versus-host disease and diarrhoea',
      'Infection window period of 7 days',
      'Infection window period of 21 days',
      'Date of event',
      'Present on admission or healthcare-associated',
      'Repeat infection timeframe of 14 days',
      'Merging within the repeat infection timeframe',
      'Secondary attribution period',
      'Secondary infection, first way',
      'Secondary infection, second way',
      'Necrotising enterocolitis',
      'Transfer rule',
      'Association with a central line',
      'Seven exclusions, and group B streptococci',
      'A non-MBI organism turns MBI-LCBI into LCBI',
      'Denominators: four methods, within 5 %, at least 75 line days',
      'Rate, device utilisation ratio, standardised utilisation ratio',
      'Standardised infection ratio only where 1 or more are predicted',
    ),
  ]),
  ...recommendationsOf(
    'CDC statistics programs and ratio tables',
    'seen',
    of(
      'Mid-P confidence interval',
      'Mid-P two-sided p',
      'Byar above 100',
      'Method of June 2011',
      'Two ratios, two rates',
      'Two proportions',
    ),
  ),
];
