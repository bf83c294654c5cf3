import type { BoardLine, BoardRow } from '@dwellward/core';
import { words } from './words/english.js';

export interface RowActions {
  readonly onRecord: (lane: BoardLine, row: BoardRow) => void;
  readonly onWhy: (lane: BoardLine, row: BoardRow) => void;
}

/** The items of a line as a list: the same as the picture, and all that there is to say of them. */
export function RowList({
  lane,
  rows,
  onRecord,
  onWhy,
}: { lane: BoardLine; rows: readonly BoardRow[] } & RowActions) {
  if (rows.length === 0) return null;
  return (
    <ul class="rows" aria-label={`${words.items_}: ${lane.name}`}>
      {rows.map((row) => (
        <li key={row.ids[0]} class={`row ${row.state}${row.emergency ? ' emergency' : ''}`}>
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
          <div class="row-buttons">
            <button type="button" class="record" onClick={() => onRecord(lane, row)}>
              {words.record}
              <span class="unseen">: {row.text}</span>
            </button>
            <button type="button" onClick={() => onWhy(lane, row)}>
              {words.why}
              <span class="unseen">: {row.text}</span>
            </button>
          </div>
        </li>
      ))}
    </ul>
  );
}
