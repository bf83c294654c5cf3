import type { BoardLine, BoardRow } from '@dwellward/core';
import { useCallback, useMemo, useState } from 'preact/hooks';
import type { Live, Unit } from './api.js';
import { everything, Filters, passes } from './filters.js';
import { Lane } from './lane.js';
import { LoadChart } from './load-chart.js';
import { words } from './words/english.js';

/** What a person may do to a row or a line, from wherever it is shown. */
export interface Actions {
  readonly onRecord: (lane: BoardLine, row: BoardRow) => void;
  readonly onWhy: (lane: BoardLine, row: BoardRow) => void;
  readonly onTrouble: (lane: BoardLine) => void;
}

/** What stands above everything else, on every page that shows care. */
export function OnTop({ unit }: { unit: Unit }) {
  return (
    <>
      {unit.doubts.length > 0 && (
        <section class="doubts" role="alert" aria-label={words.doubts}>
          <h2>{words.doubts}</h2>
          <ul>
            {unit.doubts.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </section>
      )}
      {unit.notices.length > 0 && (
        <section class="on-top" aria-labelledby="on-top">
          <h2 id="on-top">{words.onTop}</h2>
          <ul>
            {unit.notices.map((notice) => (
              <li key={notice.text} class={notice.kind}>
                <details open={notice.kind === 'emergency'}>
                  <summary>{notice.text}</summary>
                  {notice.more.length > 0 && (
                    <ol>
                      {notice.more.map((text) => (
                        <li key={text}>{text}</li>
                      ))}
                    </ol>
                  )}
                </details>
                {notice.line && (
                  <a href={`#/line/${notice.line}`}>
                    {words.openLine}
                    <span class="unseen">: {notice.text}</span>
                  </a>
                )}
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

/** The unit: what stands on top, the load of a day, every line with its lane and its list. */
export function UnitPage({ live, actions }: { live: Live<Unit>; actions: Actions }) {
  const [filter, setFilter] = useState(everything);
  const unit = live.value;
  const shown = useMemo(
    () =>
      (unit?.patients ?? []).flatMap((patient) => {
        const lines = patient.lines
          .map((lane) => ({ lane, rows: lane.rows.filter((row) => passes(row, patient, filter)) }))
          .filter(({ lane, rows }) => rows.length > 0 || (filter === everything && lane.rows.length === 0));
        return lines.length > 0 ? [{ patient, lines }] : [];
      }),
    [unit, filter],
  );
  const onFilter = useCallback((next: typeof filter) => setFilter(next), []);
  if (!unit) return <p role="status">{live.problem ? words.notReachable : words.loading}</p>;
  const nowMs = Date.parse(unit.at);
  const lines = shown.reduce((sum, one) => sum + one.lines.length, 0);
  const all = unit.patients.reduce((sum, one) => sum + one.lines.length, 0);
  return (
    <>
      <h1>{unit.headText}</h1>
      <p class="counts">{unit.countsText}</p>
      <OnTop unit={unit} />
      <LoadChart load={unit.load} />
      <Filters filter={filter} onFilter={onFilter} />
      <p class="shown" role="status">
        {words.shown(lines, all)}
      </p>
      <div id="list" tabIndex={-1}>
        {shown.map(({ patient, lines: own }) => (
          <section key={patient.patient} class="patient" aria-label={patient.name}>
            <h2>
              {patient.bed && <span class="bed">{patient.bed}</span>} {patient.name}
              {patient.unit && <span class="unit"> {patient.unit}</span>}
            </h2>
            {own.map(({ lane, rows }) => (
              <Lane key={lane.line} lane={lane} rows={rows} nowMs={nowMs} zone={unit.zone} {...actions} />
            ))}
          </section>
        ))}
      </div>
      <Foot unit={unit} />
    </>
  );
}

function Foot({ unit }: { unit: Unit }) {
  return (
    <footer>
      {unit.notInPlace.map((text) => (
        <p key={text}>{text}</p>
      ))}
      {unit.issues.length > 0 && (
        <details>
          <summary>{unit.issuesText}</summary>
          <ul>
            {unit.issues.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </details>
      )}
      {[...unit.loosened, ...unit.cautions].map((text) => (
        <p key={text}>{text}</p>
      ))}
    </footer>
  );
}
