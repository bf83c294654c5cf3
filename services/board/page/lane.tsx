import type { BoardLine, BoardRow, BoardShift } from '@dwellward/core';
import { RowList, type RowActions } from './row-list.js';
import { TimeField } from './time-field.js';
import { words } from './words/english.js';

/** What is to be known of a line before anything is done to it. */
export function LineState({ lane }: { lane: BoardLine }) {
  return (
    <>
      {lane.closedText && <p class="warning">{`${words.notInPlace}: ${lane.closedText}.`}</p>}
      {[...lane.unanswered, ...lane.warnings].map((text) => (
        <p key={text} class="warning">
          {text}
        </p>
      ))}
      {lane.holds.map((hold) => (
        <p key={hold.text} class="hold-text">
          {hold.text}
        </p>
      ))}
      {lane.lumens.length > 0 && (
        <ul class="lumens" aria-label={words.lumens}>
          {lane.lumens.map((lumen) => (
            <li key={lumen.ref} class={lumen.keptFromUse ? 'kept' : ''}>
              {lumen.text}
              {lumen.keptFromUse && lumen.reasons.length > 0 && ` (${lumen.reasons.join(' ')})`}
            </li>
          ))}
        </ul>
      )}
      {lane.notKnown.map((text) => (
        <p key={text} class="not-known">
          {text}
        </p>
      ))}
    </>
  );
}

/** One line: its lane of time, and the same as a list. */
export function Lane({
  of,
  lane,
  rows,
  nowMs,
  zone,
  shifts,
  onTrouble,
  onOther,
  ...actions
}: {
  /** Whose line it is. */
  of: string;
  lane: BoardLine;
  rows: readonly BoardRow[];
  nowMs: number;
  zone: string;
  shifts: readonly BoardShift[];
  onTrouble: (lane: BoardLine) => void;
  onOther: (lane: BoardLine) => void;
} & RowActions) {
  return (
    <section class="lane" aria-label={`${of}, ${lane.name}`} data-line={lane.line}>
      <header>
        <h3>
          <a href={`#/line/${lane.line}`}>{lane.text}</a>
        </h3>
        <div class="row-buttons">
          <button type="button" onClick={() => onTrouble(lane)}>
            {words.trouble}
            <span class="unseen">: {lane.name}</span>
          </button>
          <button type="button" onClick={() => onOther(lane)}>
            {words.recordOther}
            <span class="unseen">: {lane.name}</span>
          </button>
        </div>
      </header>
      <div class="lane-body">
        <div class="lane-picture">
          <TimeField lane={lane} nowMs={nowMs} zone={zone} shifts={shifts} />
          <LineState lane={lane} />
        </div>
        <RowList lane={lane} rows={rows} nowMs={nowMs} {...actions} />
      </div>
    </section>
  );
}
