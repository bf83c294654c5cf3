import { useState } from 'preact/hooks';
import { get, useLive, type HandoverAnswer, type Supplies } from './api.js';
import { words } from './words/english.js';

const lengths = [8, 12, 24] as const;

function useShift() {
  const [hours, setHours] = useState<number>(8);
  const live = useLive<HandoverAnswer>(() => get('handover', { hours: String(hours) }), `${hours}`);
  const controls = (
    <div class="shift-controls">
      <label>
        {words.nextHours}
        <select value={hours} onChange={(event) => setHours(Number(event.currentTarget.value))}>
          {lengths.map((one) => (
            <option key={one} value={one}>
              {one} {words.hours}
            </option>
          ))}
        </select>
      </label>
      <button type="button" onClick={() => print()}>
        {words.print}
      </button>
    </div>
  );
  return { live, controls };
}

/** The hand-over to the next shift, to read out or to print. */
export function HandoverPage() {
  const { live, controls } = useShift();
  return (
    <>
      <h1>{words.handoverPage}</h1>
      {controls}
      {live.value ? (
        <pre class="handover" tabIndex={0} aria-label={words.handoverPage}>
          {live.value.text}
        </pre>
      ) : (
        <p role="status">{live.problem ?? words.loading}</p>
      )}
    </>
  );
}

/** What the next hours need, for everybody and patient by patient. */
export function SuppliesPage() {
  const { live, controls } = useShift();
  return (
    <>
      <h1>{words.suppliesPage}</h1>
      {controls}
      {live.value ? (
        <>
          <SupplyTable name={words.forAll} supplies={live.value.supplies} />
          {live.value.patients.map(({ patient, name, bed, supplies }) => (
            <SupplyTable key={patient} name={[bed, name].filter(Boolean).join(', ')} supplies={supplies} />
          ))}
          {live.value.cautions.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </>
      ) : (
        <p role="status">{live.problem ?? words.loading}</p>
      )}
    </>
  );
}

function SupplyTable({ name, supplies }: { name: string; supplies: Supplies }) {
  const { counts, syringes, notWorkedOut } = supplies;
  if (counts.length + syringes.length === 0) return null;
  return (
    <section class="supplies">
      <h2>{name}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.supply}</th>
            <th scope="col">{words.count}</th>
          </tr>
        </thead>
        <tbody>
          {counts.map(({ text, count }) => (
            <tr key={text}>
              <td>{text}</td>
              <td>{count}</td>
            </tr>
          ))}
          {syringes.map(({ sizeMl, count }) => (
            <tr key={sizeMl}>
              <td>{words.syringe(sizeMl)}</td>
              <td>{count}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {notWorkedOut.map((text) => (
        <p key={text} class="not-known">
          {text}
        </p>
      ))}
    </section>
  );
}
