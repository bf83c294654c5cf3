import type { BoardLumen, LineView } from '@dwellward/core';
import { words } from './words/english.js';

const width = 680;
const skinX = 210;
const hubX = 330;
const gap = 34;

/**
 * The line as a drawing made from its record: one tube through the skin, its lumens side by side in it, each with an end
 * of its own and what it is like in words; of a port the chambers under the skin. Not to scale, and no picture of any
 * make. A line that is not in place is not drawn.
 */
export function LinePicture({ view }: { view: LineView }) {
  const { lumens, type } = view.line;
  if (!view.inPlace) return null;
  const isPort = type === 'implanted-port';
  const tubeEnd = isPort ? skinX - 70 : hubX;
  const height = Math.max(120, lumens.length * gap + 40);
  const middle = height / 2;
  const startY = (at: number) => middle + (at - (lumens.length - 1) / 2) * 7;
  const endY = (at: number) => middle + (at - (lumens.length - 1) / 2) * gap;
  return (
    <figure class="line-picture">
      <svg
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={words.drawingText(lumens.map(({ text }) => text).join('. '))}
      >
        <rect class="body" x="0" y="8" width={skinX} height={height - 16} />
        <line class="skin" x1={skinX} x2={skinX} y1="4" y2={height - 4} />
        <text class="place" x="8" y="24">
          {words.inside}
        </text>
        <text class="place" x={skinX + 8} y="24">
          {words.outside}
        </text>
        <rect
          class="tube"
          x="36"
          y={middle - lumens.length * 4 - 3}
          width={tubeEnd - 36}
          height={lumens.length * 8 + 6}
          rx="6"
        />
        {view.externalLength && (
          <text class="place" x={skinX + 8} y={height - 10}>
            {view.externalLength}
          </text>
        )}
        {lumens.map((lumen, at) => {
          const Drawn = isPort ? Chamber : End;
          const length = view.lengths.find((one) => one.lumen === lumen.ref)?.text;
          return <Drawn key={lumen.ref} lumen={lumen} from={startY(at)} to={endY(at)} fills={length} />;
        })}
      </svg>
      <figcaption>
        {[
          view.site && `${words.site}: ${view.site}`,
          view.dressing && `${words.dressing}: ${view.dressing}`,
          view.externalLength && `${words.externalLength}: ${view.externalLength}`,
          view.lengthText && `${words.length}: ${view.lengthText}`,
        ]
          .filter(Boolean)
          .join(' · ')}
      </figcaption>
    </figure>
  );
}

interface EndProps {
  readonly lumen: BoardLumen;
  /** Where it leaves the tube, and where its end is, from the top. */
  readonly from: number;
  readonly to: number;
  readonly fills: string | undefined;
}

/** A lumen with its end outside. */
function End({ lumen, from, to, fills }: EndProps) {
  return (
    <g class={lumen.keptFromUse ? 'lumen kept' : 'lumen'}>
      <path
        d={`M 40 ${from} H ${hubX - 20} C ${hubX + 20} ${from}, ${hubX} ${to}, ${hubX + 40} ${to} H ${hubX + 70}`}
      />
      {lumen.keptFromUse && <line class="bar-across" x1={hubX + 58} x2={hubX + 58} y1={to - 9} y2={to + 9} />}
      <State lumen={lumen} x={hubX + 78} y={to} fills={fills} />
    </g>
  );
}

/** A lumen of a port, with its chamber under the skin. */
function Chamber({ lumen, from, to, fills }: EndProps) {
  const x = skinX - 50;
  return (
    <g class={lumen.keptFromUse ? 'lumen kept' : 'lumen'}>
      <path d={`M 40 ${from} H ${x - 40} C ${x - 20} ${from}, ${x - 30} ${to}, ${x} ${to}`} />
      <rect class="chamber" x={x} y={to - 11} width={skinX - x - 8} height={22} rx={4} />
      {lumen.keptFromUse && <line class="bar-across" x1={x + 21} x2={x + 21} y1={to - 15} y2={to + 15} />}
      <State lumen={lumen} x={skinX + 20} y={to} fills={fills} />
    </g>
  );
}

function State({
  lumen,
  x,
  y,
  fills,
}: Pick<EndProps, 'lumen' | 'fills'> & { readonly x: number; readonly y: number }) {
  return (
    <>
      <text x={x} y={y - 2}>
        {lumen.name}
      </text>
      <text class="lumen-state" x={x} y={y + 12}>
        {lumen.stateText}
        {fills ? `, ${words.priming} ${fills}` : ''}
      </text>
    </>
  );
}
