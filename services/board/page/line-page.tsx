import type { LineView } from '@dwellward/core';
import { get, useLive, type Live, type Unit } from './api.js';
import { Calculators } from './calculators.js';
import { Dwell } from './dwell.js';
import { LineState } from './lane.js';
import { LinePicture } from './line-picture.js';
import { RowList } from './row-list.js';
import { TimeField } from './time-field.js';
import { OnTop, type Actions } from './unit-page.js';
import { WhyText } from './why-dialog.js';
import { words } from './words/english.js';

/** One line: its picture, its state, its dwell, and of everything that is due why. */
export function LinePage({ line, unit, actions }: { line: string; unit: Live<Unit>; actions: Actions }) {
  const { value: view, problem } = useLive<LineView>(() => get('line', { line }), line);
  if (!view) return <p role="status">{problem ?? words.loading}</p>;
  const { patient } = view;
  const others = unit.value && {
    ...unit.value,
    notices: unit.value.notices.filter((notice) => notice.line === undefined || notice.line === line),
  };
  return (
    <>
      <p>
        <a href="#/">{words.back}</a>
      </p>
      <h1>{[patient.bed, patient.name, view.line.name].filter(Boolean).join(', ')}</h1>
      <p>
        {view.line.text}
        {view.insertedAt &&
          `. ${words.since} ${new Date(view.insertedAt).toLocaleDateString('en-GB', { dateStyle: 'medium', timeZone: view.zone })}.`}
      </p>
      {others && <OnTop unit={others} />}
      <div class="row-buttons">
        <button type="button" onClick={() => actions.onTrouble(view.line)}>
          {words.trouble}
        </button>
        <button type="button" onClick={() => actions.onOther(view.line)}>
          {words.recordOther}
        </button>
      </div>
      <LinePicture view={view} />
      <LineState lane={view.line} />
      <h2 id="list" tabIndex={-1}>
        {words.items_}
      </h2>
      <TimeField
        lane={view.line}
        nowMs={Date.parse(view.at)}
        zone={view.zone}
        shifts={unit.value?.shifts ?? []}
      />
      <RowList lane={view.line} rows={view.line.rows} nowMs={Date.parse(view.at)} {...actions} />
      <Dwell view={view} />
      <Calculators view={view} />
      <section aria-labelledby="whys">
        <h2 id="whys">{words.why}</h2>
        {view.whys.map((why) => (
          <details key={why.id}>
            <summary>{why.head[0]}</summary>
            <WhyText why={why} />
          </details>
        ))}
      </section>
      {view.issues.length > 0 && (
        <section aria-labelledby="issues">
          <h2 id="issues">{words.toPutRight}</h2>
          <ul>
            {view.issues.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
