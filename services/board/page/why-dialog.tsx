import type { BoardLine, BoardRow, BoardWhy } from '@dwellward/core';
import { useEffect, useState } from 'preact/hooks';
import { get } from './api.js';
import { Dialog } from './dialog.js';
import { words } from './words/english.js';

export function WhyText({ why }: { why: BoardWhy }) {
  return (
    <article class="why">
      {why.head.map((line, at) => (
        <p key={at} class={at === 0 ? 'why-item' : ''}>
          {line}
        </p>
      ))}
      {why.sections.map(({ heading, lines }) => (
        <section key={heading}>
          <h3>{heading}</h3>
          <ul>
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      ))}
    </article>
  );
}

/** Why the items of a row are due: rule, source, facts, what would change it. */
export function WhyDialog({ lane, row, onClose }: { lane: BoardLine; row: BoardRow; onClose: () => void }) {
  const [whys, setWhys] = useState<readonly BoardWhy[]>();
  const [problem, setProblem] = useState(false);
  useEffect(() => {
    get('line', { line: lane.line }).then(
      (view) => setWhys(view.whys.filter(({ id }) => row.ids.includes(id))),
      () => setProblem(true),
    );
  }, [lane.line, row]);
  return (
    <Dialog title={words.whyTitle(`${row.text}, ${lane.name}`)} onClose={onClose}>
      {problem ? <p role="alert">{words.notReachable}</p> : whys === undefined && <p>{words.loading}</p>}
      {whys?.map((why) => (
        <WhyText key={why.id} why={why} />
      ))}
    </Dialog>
  );
}
