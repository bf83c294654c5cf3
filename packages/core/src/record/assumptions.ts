import type { Assumption } from '../mapping/to-our-codes.js';
import type { IssueList } from './issues.js';

const mostRelated = 3;

/** Tells what was read so although the record does not say it by itself: each once, however many resources say it. */
export function reportAssumptions(assumptions: readonly Assumption[], issues: IssueList): void {
  for (const one of assumptions) {
    const [first = '', ...others] = one.refs;
    const related = others.slice(0, mostRelated);
    const resources = one.refs.length;
    if (one.kind === 'text') {
      const { text, as } = one;
      issues.add('assumed', first, 'code.text', { code: 'read-by-text', text, as, resources }, { related });
    } else if (one.kind === 'only-line') {
      const { line, patient } = one;
      const about = { related, line, patient };
      issues.add('assumed', first, 'Observation.focus', { code: 'on-only-line', resources }, about);
    } else {
      const { line, patient, type, untold } = one;
      const about = { related: [first, ...related], line, patient };
      issues.add('assumed', line, 'Device', { code: 'line-by-chart', type, resources, untold }, about);
    }
  }
}
