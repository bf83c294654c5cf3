import type { BoardLine, BoardPatient, BoardRow, BoardShift } from '@dwellward/core';
import { memo } from 'preact/compat';
import { useMemo, useState } from 'preact/hooks';
import type { Live, Unit } from './api.js';
import { everything, Filters, passes, settled, type Filter } from './filters.js';
import { useGradually } from './gradually.js';
import { Lane } from './lane.js';
import { LoadChart } from './load-chart.js';
import { words } from './words/english.js';

/** What a person may do to a row or a line, from wherever it is shown. */
export interface Actions {
  readonly onRecord: (lane: BoardLine, row: BoardRow) => void;
  readonly onWhy: (lane: BoardLine, row: BoardRow) => void;
  readonly onTrouble: (lane: BoardLine) => void;
  readonly onOther: (lane: BoardLine) => void;
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

/** From so many lines on what is out of sight is not drawn until it comes near. */
const manyLines = 60;

/** One patient as the list draws it: the same object is not drawn again. */
interface Shown {
  readonly key: string;
  readonly patient: BoardPatient;
  readonly filter: Filter;
  readonly nowMs: number;
  readonly zone: string;
  readonly shifts: readonly BoardShift[];
}

/** What passes of a patient, found once: the count of all and the list itself ask for it. */
const passing = new WeakMap<Shown, { readonly lane: BoardLine; readonly rows: readonly BoardRow[] }[]>();

/** A line that passes only in part shows those rows; one without any care is shown where nothing is filtered. */
function linesOf(shown: Shown) {
  const known = passing.get(shown);
  if (known) return known;
  const { patient, filter } = shown;
  const made = patient.lines
    .map((lane) => ({
      lane,
      rows: filter === everything ? lane.rows : lane.rows.filter((row) => passes(row, patient, filter)),
    }))
    .filter(({ lane, rows }) => rows.length > 0 || (filter === everything && lane.rows.length === 0));
  passing.set(shown, made);
  return made;
}

const PatientSection = memo(({ shown, actions }: { shown: Shown; actions: Actions }) => {
  const { patient, nowMs, zone, shifts } = shown;
  const lines = linesOf(shown);
  if (lines.length === 0) return null;
  return (
    <section class="patient">
      <h2>
        {patient.bed && <span class="bed">{patient.bed}</span>} {patient.name}
        {patient.unit && <span class="unit"> {patient.unit}</span>}
      </h2>
      {lines.map(({ lane, rows }) => (
        <Lane
          key={lane.line}
          of={patient.name}
          lane={lane}
          rows={rows}
          nowMs={nowMs}
          zone={zone}
          shifts={shifts}
          {...actions}
        />
      ))}
    </section>
  );
});

/** The unit: what stands on top, the load of a day, every line with its lane and its list. */
export function UnitPage({ live, actions }: { live: Live<Unit>; actions: Actions }) {
  const [chosen, setFilter] = useState(everything);
  const unit = live.value;
  // A shift that is over filters nothing any more: else what it left out would stay hidden.
  const isOver = chosen.until !== '' && !unit?.shifts.some(({ until }) => until === chosen.until);
  const filter = isOver ? settled({ ...chosen, until: '' }) : chosen;
  const wanted = useMemo(
    (): Shown[] =>
      (unit?.patients ?? []).map((patient) => ({
        key: patient.patient,
        patient,
        filter,
        nowMs: Date.parse(unit?.at ?? ''),
        zone: unit?.zone ?? 'UTC',
        shifts: unit?.shifts ?? [],
      })),
    [unit, filter],
  );
  const drawn = useGradually(wanted);
  const lines = useMemo(() => wanted.reduce((sum, one) => sum + linesOf(one).length, 0), [wanted]);
  if (!unit) return <p role="status">{live.problem ? words.notReachable : words.loading}</p>;
  const all = unit.patients.reduce((sum, one) => sum + one.lines.length, 0);
  return (
    <>
      <h1>{unit.headText}</h1>
      <p class="counts">{unit.countsText}</p>
      <OnTop unit={unit} />
      <LoadChart load={unit.load} shifts={unit.shifts} />
      <Filters filter={filter} onFilter={setFilter} shifts={unit.shifts} />
      <p class="shown" role="status">
        {words.shown(lines, all)}
      </p>
      <div id="list" class={all > manyLines ? 'many' : ''} tabIndex={-1}>
        {drawn.map((shown) => (
          <PatientSection key={shown.key} shown={shown} actions={actions} />
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
