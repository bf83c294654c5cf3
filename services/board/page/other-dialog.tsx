import type { BoardLine, OtherCare } from '@dwellward/core';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { recordingOf, recordingOfFinding, type Recorded, type Recording } from './acts.js';
import { get } from './api.js';
import { Dialog } from './dialog.js';
import { RecordDialog } from './record-dialog.js';
import { words } from './words/english.js';

/** Records what was not asked for: care of any kind, or what was seen or measured by itself. */
export function OtherDialog({
  lane,
  now,
  zone,
  onClose,
  onRecorded,
}: {
  readonly lane: BoardLine;
  readonly now: string;
  readonly zone: string;
  readonly onClose: () => void;
  readonly onRecorded: (recorded: Recorded) => void;
}) {
  const [other, setOther] = useState<OtherCare>();
  const [problem, setProblem] = useState(false);
  const [chosen, setChosen] = useState('');
  useEffect(() => {
    get('other-care', { line: lane.line }).then(setOther, () => setProblem(true));
  }, [lane.line]);
  const recordings = useMemo(
    () => (other ? recordingsOf(other, lane) : new Map<string, Recording>()),
    [other],
  );
  const recording = recordings.get(chosen);
  if (recording)
    return (
      <RecordDialog
        lane={lane}
        recording={recording}
        now={now}
        zone={zone}
        onClose={onClose}
        onRecorded={onRecorded}
      />
    );
  const options = (kind: string) =>
    [...recordings]
      .filter(([key]) => key.startsWith(kind))
      .map(([key, { text }]) => (
        <option key={key} value={key}>
          {text}
        </option>
      ));
  return (
    <Dialog title={words.otherTitle(lane.name)} onClose={onClose}>
      {problem && <p role="alert">{words.notReachable}</p>}
      {!other && !problem && <p>{words.loading}</p>}
      {other && (
        <label>
          {words.otherCare}
          <select onChange={(event) => setChosen(event.currentTarget.value)}>
            <option value="">{words.chooseWhat}</option>
            <optgroup label={words.care}>{options('care ')}</optgroup>
            <optgroup label={words.aFinding}>{options('finding ')}</optgroup>
          </select>
        </label>
      )}
    </Dialog>
  );
}

function recordingsOf({ care, findings }: OtherCare, lane: BoardLine): Map<string, Recording> {
  const byFinding = new Map<string, OtherCare['findings'][number][]>();
  for (const ask of findings) byFinding.set(ask.finding, [...(byFinding.get(ask.finding) ?? []), ask]);
  return new Map([
    ...care.map((one): [string, Recording] => [
      `care ${one.parts[0]?.activity ?? ''}`,
      recordingOf(one, false),
    ]),
    ...[...byFinding].map(([finding, asks]): [string, Recording] => [
      `finding ${finding}`,
      recordingOfFinding(asks, lane),
    ]),
  ]);
}
