import type { LineView } from '@dwellward/core';
import { useEffect, useState } from 'preact/hooks';
import { get } from './api.js';
import { words } from './words/english.js';

/** What is worked out from this line’s own data: a blood draw, and whether damage can be repaired. */
export function Calculators({ view }: { view: LineView }) {
  const { line, lumens } = view.line;
  const [tests, setTests] = useState<readonly string[]>([]);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set(['blood-count']));
  const [lumen, setLumen] = useState(lumens.find(({ keptFromUse }) => !keptFromUse)?.ref ?? '');
  const [answer, setAnswer] = useState('');
  useEffect(() => {
    get('draw-tests').then(
      (found) => setTests(found.tests),
      () => setTests([]),
    );
  }, []);
  const show = (asking: Promise<{ readonly text: string }>) => {
    asking.then(
      ({ text }) => setAnswer(text),
      (error: unknown) => setAnswer(error instanceof Error ? error.message : words.notReachable),
    );
  };
  const lumenQuery: Readonly<Record<string, string>> = lumen ? { lumen } : {};
  return (
    <section class="calculators" aria-labelledby="calculators">
      <h2 id="calculators">{words.calculators}</h2>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          show(get('draw', { line, ...lumenQuery, tests: [...chosen].join(',') }));
        }}
      >
        <fieldset>
          <legend>{words.drawBlood}</legend>
          {lumens.length > 1 && (
            <label>
              {words.drawFrom}
              <select value={lumen} onChange={(event) => setLumen(event.currentTarget.value)}>
                {lumens.map(({ ref, name }) => (
                  <option key={ref} value={ref}>
                    {name}
                  </option>
                ))}
              </select>
            </label>
          )}
          <div class="checks">
            {tests.map((test) => (
              <label key={test} class="check">
                <input
                  type="checkbox"
                  checked={chosen.has(test)}
                  onChange={(event) => {
                    const next = new Set(chosen);
                    if (event.currentTarget.checked) next.add(test);
                    else next.delete(test);
                    setChosen(next);
                  }}
                />
                {test.replaceAll('-', ' ')}
              </label>
            ))}
          </div>
          <div class="row-buttons">
            <button type="submit">{words.drawBlood}</button>
            <button type="button" onClick={() => show(get('repair', { line, ...lumenQuery }))}>
              {words.repair}
            </button>
          </div>
        </fieldset>
      </form>
      <div role="status">
        {answer && (
          <pre tabIndex={0} aria-label={words.calculators}>
            {answer}
          </pre>
        )}
      </div>
    </section>
  );
}
