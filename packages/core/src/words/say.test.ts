import { describe, expect, it } from 'vitest';
import { Calendar } from '../timeline/calendar.js';
import { english } from './english.js';
import { outsideBrackets, pseudo } from './pseudo.kit.js';
import { say } from './say.js';

const oslo = new Calendar('Europe/Oslo');

describe('say', () => {
  it('says the parts of a sentence in the same language, times by the clock of the unit', () => {
    const held = {
      code: 'held',
      end: { at: Date.UTC(2026, 10, 25, 6, 30) },
      title: 'Nothing for 2 hours',
      wasDueBy: '2026-11-25T06:00:00+01:00',
    } as const;
    expect(say(held, english, oslo)).toBe(
      'Held until Wed 25 Nov 2026 07:30 (Nothing for 2 hours). It was due by Wed 25 Nov 2026 06:00.',
    );
  });

  it('ends a sentence with one full stop where a part of it was written with one', () => {
    const reason = { code: 'calculator-text', text: 'The weight must be above 0.' } as const;
    expect(say({ code: 'no-dose-no-further', reason }, english, oslo)).toBe(
      'No dose could be worked out: The weight must be above 0. Go no further without one.',
    );
  });

  it('puts every part of the pseudo-language in brackets, so that nothing of a sentence is left outside', () => {
    const remark = { code: 'of-fact', fact: 'labs.anc', remark: { code: 'birth-date-in-future' } } as const;
    const text = say(remark, pseudo, oslo);
    expect(text).toBe('⟦⟦the neutrophil count⟧: ⟦the birth date lies in the future⟧.⟧');
    expect(outsideBrackets(`  ${text} Device/1`)).toBe('   Device/1');
  });
});
