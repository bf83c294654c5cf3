import type { BoardAsk, BoardLine } from '@dwellward/core';
import { useMemo, useState } from 'preact/hooks';
import { actOf, findingsOf, type Choice, type Given, type Recorded, type Recording } from './acts.js';
import { chart, Refused, type Question } from './api.js';
import { Dialog } from './dialog.js';
import { RecordForm } from './record-form.js';
import { instantOf, localText } from './unit-clock.js';
import { words } from './words/english.js';

interface RecordDialogProps {
  /** The line as it is now: it changes under the dialog while others record. */
  readonly lane: BoardLine;
  readonly recording: Recording;
  /** The moment that the unit is shown for, and its zone. */
  readonly now: string;
  readonly zone: string;
  readonly onClose: () => void;
  readonly onRecorded: (recorded: Recorded) => void;
}

/**
 * Records that care was done. It opens filled in with all that the row stands for and the time now, so that saving is
 * the second click; what the service asks has to be answered before it is written.
 */
export function RecordDialog({ lane, recording, now, zone, onClose, onRecorded }: RecordDialogProps) {
  const { choices, due } = recording;
  const ids = useMemo(() => new Map(choices.map(({ key }) => [key, crypto.randomUUID()])), [choices]);
  const all = due || choices.length === 1;
  const [chosen, setChosen] = useState<ReadonlySet<string>>(
    new Set(all ? choices.map(({ key }) => key) : []),
  );
  const [earlier, setEarlier] = useState<string>();
  const [given, setGiven] = useState<Omit<Given, 'at'>>({ answers: new Map(), by: '', putOn: '', note: '' });
  const [questions, setQuestions] = useState<ReadonlyMap<string, readonly Question[]>>(new Map());
  const [yes, setYes] = useState<ReadonlySet<string>>(new Set());
  const [written, setWritten] = useState<ReadonlyMap<string, boolean>>(new Map());
  const [told, setTold] = useState<ReadonlySet<string>>(new Set());
  const [problem, setProblem] = useState('');
  const [busy, setBusy] = useState(false);
  const open = new Set(lane.rows.flatMap((row) => row.ids));
  const meanwhile = new Set(
    due ? choices.filter(({ key }) => !open.has(key) && !written.has(key)).map(({ key }) => key) : [],
  );
  const at = earlier === undefined || earlier === '' ? undefined : instantOf(earlier, zone);

  const recorded = (done: ReadonlyMap<string, boolean>): Recorded => ({
    line: lane.line,
    ids: [...done.keys()].map((key) => ids.get(key) ?? ''),
    text: choices
      .filter(({ key }) => done.has(key))
      .map(({ text }) => text)
      .join('; '),
    at: earlier ? earlier.replace('T', ' ') : words.atOnce.toLowerCase(),
    shown: [...done.values()].every(Boolean),
  });
  // What is on record is told of and can be taken back, also where the rest of it was left.
  const close = () => (written.size > 0 ? onRecorded(recorded(written)) : onClose());

  const write = async (acts: readonly Choice[]) => {
    const asked = new Map<string, readonly Question[]>();
    const done = new Map(written);
    try {
      for (const choice of acts) {
        const id = ids.get(choice.key) ?? crypto.randomUUID();
        const act = actOf(choice, id, lane.line, recording.asks, { ...given, at });
        // A yes is to the questions that were read, not to those that came since.
        const answered = yes.has(choice.key) ? (questions.get(choice.key) ?? []) : [];
        const answer = await chart(
          act,
          answered.map(({ code }) => code),
        );
        if (answer.questions.length > 0) asked.set(choice.key, answer.questions);
        else done.set(choice.key, answer.shown);
      }
      if (asked.size === 0) onRecorded(recorded(done));
    } catch (error) {
      setProblem(error instanceof Refused ? error.problems.join(' ') : words.failed);
    }
    setWritten(done);
    setQuestions(asked);
    setYes(new Set());
  };

  const save = async () => {
    const acts = choices.filter(({ key }) => chosen.has(key) && !written.has(key));
    // Whoever has answered that it was done all the same has been asked.
    const unseen = acts.filter(({ key }) => meanwhile.has(key) && !told.has(key) && !yes.has(key));
    const saysNothing = acts.some(
      ({ key, activity }) => activity === undefined && !isAnswered(key, recording.asks, given),
    );
    setTold(meanwhile);
    if (acts.length === 0 || saysNothing) return setProblem(words.pick);
    if (earlier === '') return setProblem(words.sayWhen);
    setProblem('');
    if (unseen.length > 0) return undefined;
    setBusy(true);
    await write(acts);
    return setBusy(false);
  };

  return (
    <Dialog title={words.recordTitle(`${recording.text}, ${lane.name}`)} onClose={close}>
      <RecordForm
        recording={recording}
        chosen={chosen}
        onChosen={setChosen}
        written={written}
        questions={questions}
        yes={yes}
        onYes={setYes}
        meanwhile={new Set([...meanwhile].filter((key) => told.has(key)))}
        given={given}
        onGiven={setGiven}
        earlier={earlier}
        onEarlier={(text) => setEarlier(text ?? undefined)}
        nowText={localText(Date.parse(now), zone)}
        problem={problem}
        busy={busy}
        onSave={() => void save()}
        onLeave={close}
      />
    </Dialog>
  );
}

function isAnswered(key: string, asks: readonly BoardAsk[], given: Omit<Given, 'at'>): boolean {
  return asks.some((ask) => ask.of === key && findingsOf(ask, { ...given, at: undefined }).length > 0);
}
