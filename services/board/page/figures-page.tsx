import { useEffect, useState } from 'preact/hooks';
import { get, Refused, type FiguresView } from './api.js';
import { words } from './words/english.js';

/** The unit’s figures, as they were made from its last export. */
export function FiguresPage() {
  const [figures, setFigures] = useState<FiguresView | null>();
  const [problem, setProblem] = useState('');
  useEffect(() => {
    get('figures').then(
      (answer) => setFigures(answer.figures),
      (error: unknown) =>
        setProblem(error instanceof Refused ? error.problems.join(' ') : words.notReachable),
    );
  }, []);
  return (
    <div class="figures">
      <h1>{figures?.title ?? words.figuresPage}</h1>
      {problem && <p role="alert">{problem}</p>}
      {figures === undefined && !problem && <p role="status">{words.loading}</p>}
      {figures === null && <p>{words.noFigures}</p>}
      {figures && <Shown figures={figures} />}
    </div>
  );
}

function Shown({ figures }: { readonly figures: FiguresView }) {
  return (
    <>
      <div class="row-buttons">
        <button type="button" onClick={() => print()}>
          {words.print}
        </button>
      </div>
      {figures.cautions.map((text) => (
        <p key={text} class="not-known">
          {text}
        </p>
      ))}
      {figures.tables.map((table) => (
        <Table key={table.heading} table={table} />
      ))}
      {figures.charts.map(({ title, description, svg }) => (
        // As an image it can run nothing, whatever a unit is called.
        <figure key={title} class="chart">
          <img src={`data:image/svg+xml,${encodeURIComponent(svg)}`} alt={`${title}. ${description}`} />
        </figure>
      ))}
      {figures.proposals.length > 0 && (
        <section aria-labelledby="proposals">
          <h2 id="proposals">{words.proposals}</h2>
          {figures.proposals.map(({ text, because }) => (
            <details key={text}>
              <summary>{text}</summary>
              <ul>
                {because.map((why) => (
                  <li key={why}>{why}</li>
                ))}
              </ul>
            </details>
          ))}
        </section>
      )}
      <details>
        <summary>{figures.leftOutText}</summary>
        <ul>
          {figures.leftOut.map((text, at) => (
            <li key={at}>{text}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

function Table({ table: { heading, head, rows, notes } }: { readonly table: FiguresView['tables'][number] }) {
  const id = heading.toLowerCase().replaceAll(' ', '-');
  return (
    <section>
      <h2 id={id}>{heading}</h2>
      <div class="wide" tabIndex={0} role="region" aria-labelledby={id}>
        <table>
          <thead>
            <tr>
              {head.map((cell) => (
                <th key={cell} scope="col">
                  {cell}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, at) => (
              <tr key={at}>
                {row.map((cell, column) =>
                  column === 0 ? (
                    <th key={column} scope="row">
                      {cell}
                    </th>
                  ) : (
                    <td key={column}>{cell}</td>
                  ),
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {notes.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </section>
  );
}
