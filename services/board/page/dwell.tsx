import type { BoardEvent, LineView } from '@dwellward/core';
import { useEffect, useState } from 'preact/hooks';
import { get, type PastWindows } from './api.js';
import { words } from './words/english.js';

const width = 900;
const left = 62;
const tracks: readonly { readonly kind: BoardEvent['kind']; readonly name: string }[] = [
  { kind: 'care', name: words.care },
  { kind: 'finding', name: words.findings },
  { kind: 'infusion', name: words.infusions },
];
const trackHigh = 26;
const windowsHigh = 40;
const curveHigh = 110;

/** Windows of care that have closed: asked for by themselves, because they take longer to work out. */
function usePastWindows(line: string): PastWindows | undefined {
  const [past, setPast] = useState<PastWindows>();
  useEffect(() => {
    get('windows', { line }).then(setPast, () => setPast(undefined));
  }, [line]);
  return past;
}

/**
 * The whole dwell of a line, drawn from its record: what was done, found and ran, windows of care kept and missed, holds,
 * and the neutrophil curve.
 */
export function Dwell({ view }: { view: LineView }) {
  const past = usePastWindows(view.line.line);
  const nowMs = Date.parse(view.at);
  const times = [
    ...view.events.map(({ at }) => Date.parse(at)),
    ...(view.insertedAt ? [Date.parse(view.insertedAt)] : []),
  ];
  if (times.length === 0) return null;
  const fromMs = Math.min(...times);
  const toMs = Math.max(
    nowMs,
    ...view.line.rows.map(({ dueBy }) => Math.min(Date.parse(dueBy), nowMs + 7 * 86_400_000)),
  );
  const x = (ms: number) => left + ((ms - fromMs) / Math.max(1, toMs - fromMs)) * (width - left - 8);
  const day = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', timeZone: view.zone });
  const counts = view.neutrophils.filter(({ at }) => Date.parse(at) >= fromMs);
  const windows = past?.windows ?? [];
  const windowsTop = 14 + tracks.length * trackHigh;
  const top = windowsTop + (windows.length > 0 ? windowsHigh : 0) + 8;
  const most = Math.max(1, ...counts.map(({ value }) => value), ...view.neutrophilLimits);
  const y = (value: number) => top + curveHigh - (value / most) * (curveHigh - 12);
  const height = counts.length > 0 ? top + curveHigh + 22 : top + 4;
  const ticks = Array.from({ length: 7 }, (_, at) => fromMs + ((toMs - fromMs) * at) / 6);
  return (
    <section class="dwell" aria-labelledby="dwell-head">
      <h2 id="dwell-head">{words.dwell}</h2>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={words.dwellPicture(day.format(fromMs), view.events.length)}
      >
        {ticks.map((ms) => (
          <g key={ms} class="ticks">
            <line x1={x(ms)} x2={x(ms)} y1={14} y2={height} />
            <text x={Math.min(x(ms) + 2, width - 40)} y={10}>
              {day.format(ms)}
            </text>
          </g>
        ))}
        {view.line.holds.map((hold, at) => (
          <rect
            key={at}
            class="hold"
            fill="url(#hatch-line)"
            x={x(Math.max(fromMs, Date.parse(hold.from)))}
            y={14}
            width={Math.max(
              3,
              x(Math.min(toMs, hold.until ? Date.parse(hold.until) : toMs)) - x(Date.parse(hold.from)),
            )}
            height={tracks.length * trackHigh}
          />
        ))}
        <defs>
          <pattern
            id="hatch-line"
            width="6"
            height="6"
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <line class="hatch-line" x1="0" y1="0" x2="0" y2="6" />
          </pattern>
        </defs>
        {tracks.map(({ kind, name }, at) => (
          <g key={kind} class={`track ${kind}`}>
            <text class="track-name" x={0} y={14 + at * trackHigh + 17}>
              {name}
            </text>
            {view.events
              .filter((event) => event.kind === kind)
              .map((event) => {
                const from = x(Date.parse(event.at));
                const to =
                  event.kind === 'infusion' ? x(event.until ? Date.parse(event.until) : nowMs) : from;
                return (
                  <rect
                    key={`${event.ref} ${event.at}`}
                    x={from - 1}
                    y={14 + at * trackHigh + 5}
                    width={Math.max(2.5, to - from)}
                    height={trackHigh - 10}
                  >
                    <title>{`${event.text}${event.on ? `, ${event.on}` : ''}`}</title>
                  </rect>
                );
              })}
          </g>
        ))}
        {windows.length > 0 && <WindowTrack windows={windows} x={x} from={fromMs} top={windowsTop} />}
        {counts.length > 0 && (
          <g class="counts-curve">
            <text class="track-name" x={0} y={top + 2}>
              {words.counts}
            </text>
            {view.neutrophilLimits.map((limit) => (
              <g key={limit}>
                <line class="limit" x1={left} x2={width - 8} y1={y(limit)} y2={y(limit)} />
                <text class="limit-text" x={left + 4} y={y(limit) - 3}>
                  {words.limit(limit)}
                </text>
              </g>
            ))}
            <polyline points={counts.map(({ at, value }) => `${x(Date.parse(at))},${y(value)}`).join(' ')} />
            {counts.map(({ at, value, text }) => (
              <circle key={at} cx={x(Date.parse(at))} cy={y(value)} r="2.6">
                <title>{text}</title>
              </circle>
            ))}
          </g>
        )}
        <line class="now" x1={x(nowMs)} x2={x(nowMs)} y1={12} y2={height} />
      </svg>
      {past && past.windows.length > 0 && <WindowTable past={past} zone={view.zone} />}
      <EventTable view={view} />
    </section>
  );
}

const windowRow = 7;

/** Each window from when it opened to when it was due by; kept ones are open bars, others are filled. */
function WindowTrack({
  windows,
  x,
  from,
  top,
}: {
  windows: PastWindows['windows'];
  x: (ms: number) => number;
  from: number;
  top: number;
}) {
  const ends: number[] = [];
  const rows = Math.floor((windowsHigh - 4) / windowRow);
  return (
    <g class="track windows">
      <text class="track-name" x={0} y={top + 17}>
        {words.windows}
      </text>
      {windows.map(({ opens, dueBy, outcome, text }, at) => {
        const begin = x(Math.max(from, Date.parse(opens)));
        const end = Math.max(x(Date.parse(dueBy)), begin + 3);
        const free = ends.findIndex((one) => one + 1 <= begin);
        const row = free === -1 ? Math.min(ends.length, rows - 1) : free;
        ends[row] = Math.max(end, ends[row] ?? 0);
        return (
          <rect
            key={at}
            class={outcome}
            x={begin}
            y={top + 3 + row * windowRow}
            width={end - begin}
            height={windowRow - 2}
          >
            <title>{text}</title>
          </rect>
        );
      })}
    </g>
  );
}

function WindowTable({ past: { from, windows }, zone }: { past: PastWindows; zone: string }) {
  const day = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeZone: zone });
  const kept = windows.filter(({ outcome }) => outcome === 'on-time').length;
  return (
    <details>
      <summary>
        {words.windowsFrom(day.format(Date.parse(`${from}T12:00:00Z`)), kept, windows.length)}
      </summary>
      <ul>
        {windows.toReversed().map(({ text }, at) => (
          <li key={at}>{text}</li>
        ))}
      </ul>
    </details>
  );
}

function EventTable({ view }: { view: LineView }) {
  const moment = new Intl.DateTimeFormat('en-GB', {
    dateStyle: 'medium',
    timeStyle: 'short',
    timeZone: view.zone,
  });
  const rows = [
    ...view.events.map(({ at, text, on }) => ({ at, text, on })),
    ...view.neutrophils.map(({ at, text }) => ({ at, text: `${words.counts}: ${text}`, on: undefined })),
  ].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
  return (
    <details>
      <summary>{words.allEvents}</summary>
      <div class="wide" tabIndex={0} role="region" aria-label={words.dwell}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.time}</th>
              <th scope="col">{words.event}</th>
              <th scope="col">{words.on}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(({ at, text, on }, index) => (
              <tr key={`${at} ${text} ${index}`}>
                <td>{moment.format(Date.parse(at))}</td>
                <td>{text}</td>
                <td>{on ?? ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}
