import type { BoardLine, TroubleSteps } from '@dwellward/core';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { chart, get, Refused } from './api.js';
import { Dialog } from './dialog.js';
import type { Recorded } from './acts.js';
import { words } from './words/english.js';

/** First steps in every trouble that the policy answers at once, for this line; and what is found is recorded here. */
export function TroubleDialog({
  lane,
  onClose,
  onRecorded,
}: {
  lane: BoardLine;
  onClose: () => void;
  onRecorded: (recorded: Recorded) => void;
}) {
  const [lumen, setLumen] = useState(lane.lumens[0]?.ref ?? '');
  const [troubles, setTroubles] = useState<readonly TroubleSteps[]>();
  const [problem, setProblem] = useState('');
  const [kinds, setKinds] = useState<Readonly<Record<string, string>>>({});
  const ids = useMemo(() => new Map<string, string>(), []);
  useEffect(() => {
    get('first-steps', { line: lane.line, ...(lumen ? { lumen } : {}) }).then(
      (answer) => setTroubles(answer.troubles),
      () => setProblem(words.notReachable),
    );
  }, [lane.line, lumen]);

  const found = async ({ finding, value: own, kinds: may, name, ofLumen }: TroubleSteps) => {
    const value = own ?? kinds[finding] ?? may[0]?.value;
    const key = `${finding} ${value ?? ''} ${lumen}`;
    const id = ids.get(key) ?? crypto.randomUUID();
    ids.set(key, id);
    try {
      const { questions, shown } = await chart(
        {
          id,
          line: lane.line,
          ...(ofLumen && lumen && lane.lumens.length > 1 ? { lumen } : {}),
          findings: [{ finding, ...(value === undefined ? {} : { value }) }],
        },
        [],
      );
      if (questions.length > 0) setProblem(questions.map(({ text }) => text).join(' '));
      else onRecorded({ line: lane.line, ids: [id], text: name, at: words.atOnce.toLowerCase(), shown });
    } catch (error) {
      setProblem(error instanceof Refused ? error.problems.join(' ') : words.failed);
    }
  };

  return (
    <Dialog title={`${words.trouble}, ${lane.name}`} onClose={onClose}>
      <p>{words.stepsNote}</p>
      {lane.lumens.length > 1 && (
        <label>
          {words.forLumen}
          <select value={lumen} onChange={(event) => setLumen(event.currentTarget.value)}>
            {lane.lumens.map(({ ref, name }) => (
              <option key={ref} value={ref}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      {problem && (
        <p class="question" role="alert">
          {problem}
        </p>
      )}
      {troubles === undefined && !problem && <p>{words.loading}</p>}
      {(troubles ?? []).map((trouble) => (
        <details key={`${trouble.finding} ${trouble.value ?? ''}`} class="trouble" name="trouble">
          <summary>{trouble.name}</summary>
          {trouble.items.map(({ text, steps, cautions, take }) => (
            <div key={text}>
              <h3>{text}</h3>
              <ol>
                {steps.map((step) => (
                  <li key={step}>{step}</li>
                ))}
              </ol>
              {take.length > 0 && (
                <>
                  <h4>{words.take}</h4>
                  <ul>
                    {take.map((one) => (
                      <li key={one}>{one}</li>
                    ))}
                  </ul>
                </>
              )}
              {cautions.map((caution) => (
                <p key={caution} class="not-known">
                  {caution}
                </p>
              ))}
            </div>
          ))}
          {trouble.holds.length > 0 && (
            <>
              <h3>{words.thenHeld}</h3>
              <ul>
                {trouble.holds.map((hold) => (
                  <li key={hold}>{hold}</li>
                ))}
              </ul>
            </>
          )}
          {trouble.kinds.length > 1 && (
            <label>
              {words.whatKind}
              <select
                onChange={(event) => setKinds({ ...kinds, [trouble.finding]: event.currentTarget.value })}
              >
                {trouble.kinds.map(({ value, name }) => (
                  <option key={value} value={value}>
                    {name}
                  </option>
                ))}
              </select>
            </label>
          )}
          <button type="button" class="record" onClick={() => void found(trouble)}>
            {words.foundIt}
            <span class="unseen">: {trouble.name}</span>
          </button>
        </details>
      ))}
    </Dialog>
  );
}
