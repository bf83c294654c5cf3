import type { BoardAsk } from '@dwellward/core';
import { askKey, type Choice, type Given, type Recording } from './acts.js';
import type { Question } from './api.js';
import { words } from './words/english.js';

type Filled = Omit<Given, 'at'>;

interface RecordFormProps {
  readonly recording: Recording;
  readonly chosen: ReadonlySet<string>;
  readonly onChosen: (chosen: ReadonlySet<string>) => void;
  /** Acts that are on record already. */
  readonly written: ReadonlyMap<string, boolean>;
  readonly questions: ReadonlyMap<string, readonly Question[]>;
  readonly yes: ReadonlySet<string>;
  readonly onYes: (yes: ReadonlySet<string>) => void;
  /** Acts that somebody else has recorded since it was opened. */
  readonly meanwhile: ReadonlySet<string>;
  readonly given: Filled;
  readonly onGiven: (given: Filled) => void;
  /** By the clock of the unit; now where absent. */
  readonly earlier: string | undefined;
  readonly onEarlier: (text: string | undefined) => void;
  readonly nowText: string;
  readonly problem: string;
  readonly busy: boolean;
  readonly onSave: () => void;
  readonly onLeave: () => void;
}

function toggled(set: ReadonlySet<string>, key: string): ReadonlySet<string> {
  const next = new Set(set);
  if (!next.delete(key)) next.add(key);
  return next;
}

/** The form of what was done: which of the acts, when, who, and what was seen with each. */
export function RecordForm(props: RecordFormProps) {
  const { recording, chosen, given, onGiven, problem, busy, onSave, onLeave } = props;
  const { choices, asks, dressings } = recording;
  const dressing = choices.some(({ key, putsDressingOn }) => putsDressingOn && chosen.has(key));
  const text = (name: 'by' | 'note') => (event: { currentTarget: { value: string } }) =>
    onGiven({ ...given, [name]: event.currentTarget.value });
  return (
    <form
      class="record-form"
      onSubmit={(event) => {
        event.preventDefault();
        onSave();
      }}
    >
      <fieldset>
        <legend>{words.what}</legend>
        {choices.map((choice) => (
          <ActChoice key={choice.key} choice={choice} {...props} />
        ))}
      </fieldset>
      <When {...props} />
      <label>
        {words.who}
        <input type="text" autocomplete="name" maxLength={100} onInput={text('by')} />
      </label>
      {dressing && (
        <label>
          {words.putOn}
          <select onInput={(event) => onGiven({ ...given, putOn: event.currentTarget.value })}>
            <option value="">{words.notSaid}</option>
            {dressings.map(({ value, name }) => (
              <option key={value} value={value}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      {asks
        .filter(({ of }) => chosen.has(of))
        .map((ask) => (
          <Ask
            key={askKey(ask)}
            ask={ask}
            answers={given.answers.get(askKey(ask)) ?? []}
            onAnswers={(answers) =>
              onGiven({ ...given, answers: new Map(given.answers).set(askKey(ask), answers) })
            }
          />
        ))}
      <label>
        {words.note}
        <input type="text" maxLength={300} onInput={text('note')} />
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
        <button type="button" onClick={onLeave}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}

/** One act, with what is asked about it; one that is on record is no longer a choice. */
function ActChoice({
  choice: { key, text },
  chosen,
  onChosen,
  written,
  questions,
  yes,
  onYes,
  meanwhile,
}: RecordFormProps & { readonly choice: Choice }) {
  const own = questions.get(key) ?? [];
  const isWritten = written.has(key);
  return (
    <div>
      <label class="check">
        <input
          type="checkbox"
          checked={chosen.has(key)}
          disabled={isWritten}
          onChange={() => onChosen(toggled(chosen, key))}
        />
        {text}
        {isWritten && ` (${words.onRecord})`}
      </label>
      {meanwhile.has(key) && (
        <p class="question" role="alert">
          {words.meanwhile}
        </p>
      )}
      {own.map(({ code, text: question }) => (
        <p key={code} class="question" role="alert">
          {question}
        </p>
      ))}
      {own.length > 0 && own.every(({ refused }) => !refused) && (
        <label class="check">
          <input type="checkbox" checked={yes.has(key)} onChange={() => onYes(toggled(yes, key))} />
          {words.confirm}
        </label>
      )}
    </div>
  );
}

function When({ earlier, onEarlier, nowText }: RecordFormProps) {
  return (
    <fieldset>
      <legend>{words.when}</legend>
      <label class="check">
        <input
          type="radio"
          name="when"
          checked={earlier === undefined}
          onChange={() => onEarlier(undefined)}
        />
        {words.atOnce}
      </label>
      <label class="check">
        <input
          type="radio"
          name="when"
          checked={earlier !== undefined}
          onChange={() => onEarlier(earlier ?? nowText)}
        />
        {words.earlier}
        <input
          type="datetime-local"
          aria-label={words.when}
          value={earlier ?? nowText}
          onInput={(event) => onEarlier(event.currentTarget.value)}
        />
      </label>
    </fieldset>
  );
}

function Ask({
  ask: { name, on, kind, choices, unitText },
  answers,
  onAnswers,
}: {
  readonly ask: BoardAsk;
  readonly answers: readonly string[];
  readonly onAnswers: (answers: readonly string[]) => void;
}) {
  const label = words.seenOn(name, on);
  if (kind === 'amount')
    return (
      <label>
        {unitText ? `${label}, ${unitText}` : label}
        <input
          type="number"
          min="0"
          max="200"
          step="0.1"
          inputMode="decimal"
          onInput={(event) => onAnswers([event.currentTarget.value])}
        />
      </label>
    );
  if (kind === 'several')
    return (
      <fieldset>
        <legend>{label}</legend>
        <div class="checks">
          {choices.map(({ value, name: text }) => (
            <label key={value} class="check">
              <input
                type="checkbox"
                checked={answers.includes(value)}
                onChange={() => onAnswers([...toggled(new Set(answers), value)])}
              />
              {text}
            </label>
          ))}
        </div>
      </fieldset>
    );
  const options =
    kind === 'yes-or-no'
      ? [
          { value: 'yes', name: words.yes },
          { value: 'no', name: words.no },
        ]
      : choices;
  return (
    <label>
      {label}
      <select onInput={(event) => onAnswers([event.currentTarget.value])}>
        <option value="">{words.notSaid}</option>
        {options.map(({ value, name: text }) => (
          <option key={value} value={value}>
            {text}
          </option>
        ))}
      </select>
    </label>
  );
}
