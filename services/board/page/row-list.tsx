import type { BoardLine, BoardRow } from '@dwellward/core';
import { words } from './words/english.js';

export interface RowActions {
  readonly onRecord: (lane: BoardLine, row: BoardRow) => void;
  readonly onWhy: (lane: BoardLine, row: BoardRow) => void;
}

/** Further ahead than a shift and the hand-over to the next, a row is told of and not shown. */
const soonMs = 12 * 3_600_000;

/** The items of a line as a list: the same as the picture, and all that there is to say of them. */
export function RowList({
  lane,
  rows,
  nowMs,
  ...actions
}: { lane: BoardLine; rows: readonly BoardRow[]; nowMs: number } & RowActions) {
  if (rows.length === 0) return null;
  const isSoon = ({ state, opens }: BoardRow) => state !== 'upcoming' || Date.parse(opens) <= nowMs + soonMs;
  const later = rows.filter((row) => !isSoon(row));
  const list = (of: readonly BoardRow[]) => (
    <ul class="rows" aria-label={`${words.items_}: ${lane.name}`}>
      {of.map((row) => (
        <Row key={row.ids[0]} lane={lane} row={row} {...actions} />
      ))}
    </ul>
  );
  return (
    <div>
      {later.length < rows.length && list(rows.filter(isSoon))}
      {later.length > 0 && (
        <details class="later">
          <summary>{words.later(later.length)}</summary>
          {list(later)}
        </details>
      )}
    </div>
  );
}

function Row({ lane, row, onRecord, onWhy }: { lane: BoardLine; row: BoardRow } & RowActions) {
  return (
    <li class={`row ${row.state}${row.emergency ? ' emergency' : ''}`}>
      <div class="row-text">
        <div class="row-head">
          <span class="state">{row.stateText}</span>
          <span class="what">{row.text}</span>
          <span class="due">
            <time dateTime={row.dueBy}>{row.dueText}</time>, {row.relativeText}
          </span>
        </div>
        {row.why.length > 0 && <p class="because">{row.why.join(' ')}</p>}
        {row.firstSteps.length > 0 && (
          <ol class="first-steps">
            {row.firstSteps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        )}
      </div>
      <div class="row-buttons">
        <button
          type="button"
          class={row.state === 'overdue' || row.state === 'due' ? 'record' : ''}
          onClick={() => onRecord(lane, row)}
        >
          {words.record}
          <span class="unseen">: {row.text}</span>
        </button>
        <button type="button" onClick={() => onWhy(lane, row)}>
          {words.why}
          <span class="unseen">: {row.text}</span>
        </button>
      </div>
    </li>
  );
}
