import type { BoardLine, BoardRow } from '@dwellward/core';
import { useMemo, useState } from 'preact/hooks';
import { chart, Refused, type Act, type ChartedFinding, type Question } from './api.js';
import { Dialog } from './dialog.js';
import { instantOf, localText } from './unit-clock.js';
import { words } from './words/english.js';

/** One act that the row stands for: an activity on the line, or on one of its lumens. */
interface Choice {
  readonly key: string;
  readonly activity: string;
  readonly lumen: string | undefined;
  readonly text: string;
}

/** What was recorded: enough to take it back. */
export interface Recorded {
  readonly line: string;
  readonly ids: readonly string[];
  readonly text: string;
  readonly at: string;
}

const dressings = ['gauze-dressing', 'transparent-dressing', 'chlorhexidine-dressing'] as const;
const bloodReturns = ['brisk', 'sluggish', 'none'] as const;
const resistances = ['none', 'some', 'blocked'] as const;
const plain = (code: string) => code.replaceAll('-', ' ');

export function choicesOf(row: BoardRow): Choice[] {
  return row.parts.flatMap(({ activity, name, targets }) =>
    targets.map(({ scope, ref, name: target }) => ({
      key: `${activity} ${ref} ${scope}`,
      activity,
      lumen: scope === 'lumen' ? ref : undefined,
      text: `${name}: ${target}`,
    })),
  );
}

/**
 * Records that care was done. It opens filled in with all that the row stands for and the time now, so that saving is
 * the second click; what the service asks has to be answered before it is written.
 */
export function RecordDialog({
  lane,
  row,
  now,
  zone,
  onClose,
  onRecorded,
}: {
  lane: BoardLine;
  row: BoardRow;
  /** The moment that the unit is shown for, and its zone. */
  now: string;
  zone: string;
  onClose: () => void;
  onRecorded: (recorded: Recorded) => void;
}) {
  const choices = useMemo(() => choicesOf(row), [row]);
  const ids = useMemo(() => new Map(choices.map(({ key }) => [key, crypto.randomUUID()])), [choices]);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set(choices.map(({ key }) => key)));
  const [earlier, setEarlier] = useState(() => localText(Date.parse(now), zone));
  const [isEarlier, setIsEarlier] = useState(false);
  const [given, setGiven] = useState<Readonly<Record<string, string>>>({});
  const [questions, setQuestions] = useState<ReadonlyMap<string, readonly Question[]>>(new Map());
  const [yes, setYes] = useState<ReadonlySet<string>>(new Set());
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const activities = new Set(choices.filter(({ key }) => chosen.has(key)).map(({ activity }) => activity));
  const has = (name: string) => activities.has(name);
  const give = (name: string) => (event: { currentTarget: { value: string } }) =>
    setGiven({ ...given, [name]: event.currentTarget.value });

  const findingsOf = (choice: Choice, first: boolean): ChartedFinding[] => [
    ...(given['bloodReturn'] && choice.lumen !== undefined
      ? [{ finding: 'blood-return', value: given['bloodReturn'] }]
      : []),
    ...(given['flushResistance'] && choice.activity === 'flush'
      ? [{ finding: 'flush-resistance', value: given['flushResistance'] }]
      : []),
    ...(given['externalLength'] && first
      ? [{ finding: 'external-length', quantity: given['externalLength'] }]
      : []),
  ];

  const save = async () => {
    const acts = choices.filter(({ key }) => chosen.has(key));
    if (acts.length === 0) return setProblem(words.pick);
    setBusy(true);
    setProblem('');
    const asked = new Map<string, readonly Question[]>();
    try {
      for (const [at, choice] of acts.entries()) {
        const findings = findingsOf(choice, at === 0);
        const act: Act = {
          id: ids.get(choice.key) ?? crypto.randomUUID(),
          line: lane.line,
          activity: choice.activity,
          ...(choice.lumen === undefined ? {} : { lumen: choice.lumen }),
          ...(findings.length > 0 ? { findings } : {}),
          ...(isEarlier && earlier ? { at: instantOf(earlier, zone) } : {}),
          ...(given['by'] ? { by: given['by'] } : {}),
          ...(given['putOn'] && choice.activity === 'dressing-change' ? { putOn: given['putOn'] } : {}),
          ...(given['note'] ? { note: given['note'] } : {}),
        };
        const answered = yes.has(choice.key) ? (questions.get(choice.key) ?? []) : [];
        const open = await chart(
          act,
          answered.map(({ code }) => code),
        );
        if (open.length > 0) asked.set(choice.key, open);
      }
      setQuestions(asked);
      if (asked.size === 0)
        onRecorded({
          line: lane.line,
          ids: acts.map(({ key }) => ids.get(key) ?? ''),
          text: acts.map(({ text }) => text).join('; '),
          at: isEarlier && earlier ? earlier.replace('T', ' ') : words.atOnce.toLowerCase(),
        });
    } catch (error) {
      setProblem(error instanceof Refused ? error.problems.join(' ') : words.failed);
    } finally {
      setBusy(false);
    }
  };

  return (
    <Dialog title={words.recordTitle(`${row.text}, ${lane.name}`)} onClose={onClose}>
      <form
        class="record-form"
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        <fieldset>
          <legend>{words.what}</legend>
          {choices.map(({ key, text }) => (
            <div key={key}>
              <label class="check">
                <input
                  type="checkbox"
                  checked={chosen.has(key)}
                  onChange={(event) => {
                    const next = new Set(chosen);
                    if (event.currentTarget.checked) next.add(key);
                    else next.delete(key);
                    setChosen(next);
                  }}
                />
                {text}
              </label>
              {(questions.get(key) ?? []).map(({ code, text: question }) => (
                <p key={code} class="question" role="alert">
                  {question}
                </p>
              ))}
              {(questions.get(key) ?? []).length > 0 &&
                (questions.get(key) ?? []).every(({ refused }) => !refused) && (
                  <label class="check">
                    <input
                      type="checkbox"
                      checked={yes.has(key)}
                      onChange={(event) => {
                        const next = new Set(yes);
                        if (event.currentTarget.checked) next.add(key);
                        else next.delete(key);
                        setYes(next);
                      }}
                    />
                    {words.confirm}
                  </label>
                )}
            </div>
          ))}
        </fieldset>
        <fieldset>
          <legend>{words.when}</legend>
          <label class="check">
            <input type="radio" name="when" checked={!isEarlier} onChange={() => setIsEarlier(false)} />
            {words.atOnce}
          </label>
          <label class="check">
            <input type="radio" name="when" checked={isEarlier} onChange={() => setIsEarlier(true)} />
            {words.earlier}
            <input
              type="datetime-local"
              aria-label={words.when}
              value={earlier}
              onInput={(event) => {
                setEarlier(event.currentTarget.value);
                setIsEarlier(true);
              }}
            />
          </label>
        </fieldset>
        <label>
          {words.who}
          <input type="text" autocomplete="name" maxLength={100} onInput={give('by')} />
        </label>
        {has('dressing-change') && <Select label={words.putOn} values={dressings} onInput={give('putOn')} />}
        {(has('dressing-change') || has('external-length-measurement')) && (
          <label>
            {words.externalLength}
            <input
              type="number"
              min="0"
              max="200"
              step="0.1"
              inputMode="decimal"
              onInput={give('externalLength')}
            />
          </label>
        )}
        {(has('flush') || has('patency-assessment') || has('blood-sampling')) && (
          <Select label={words.bloodReturn} values={bloodReturns} onInput={give('bloodReturn')} />
        )}
        {has('flush') && (
          <Select label={words.flushResistance} values={resistances} onInput={give('flushResistance')} />
        )}
        <label>
          {words.note}
          <input type="text" maxLength={300} onInput={give('note')} />
        </label>
        {problem && (
          <p class="question" role="alert">
            {problem}
          </p>
        )}
        <div class="row-buttons">
          <button type="submit" class="record" disabled={busy}>
            {words.save}
          </button>
          <button type="button" onClick={onClose}>
            {words.cancel}
          </button>
        </div>
      </form>
    </Dialog>
  );
}

function Select({
  label,
  values,
  onInput,
}: {
  label: string;
  values: readonly string[];
  onInput: (event: { currentTarget: { value: string } }) => void;
}) {
  return (
    <label>
      {label}
      <select onInput={onInput}>
        <option value="">{words.notSaid}</option>
        {values.map((value) => (
          <option key={value} value={value}>
            {plain(value)}
          </option>
        ))}
      </select>
    </label>
  );
}
