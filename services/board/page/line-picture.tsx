import type { LineView } from '@dwellward/core';
import { words } from './words/english.js';

const width = 680;
const skinX = 210;
const hubX = 330;

/**
 * The line as a drawing made from its record: one tube through the skin, its lumens side by side in it, each with an end
 * of its own and what it is like in words. Not to scale, and no picture of any make.
 */
export function LinePicture({ view }: { view: LineView }) {
  const { lumens } = view.line;
  const gap = 34;
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
          width={hubX - 36}
          height={lumens.length * 8 + 6}
          rx="6"
        />
        {view.externalLength && (
          <text class="place" x={skinX + 8} y={height - 10}>
            {view.externalLength}
          </text>
        )}
        {lumens.map((lumen, at) => {
          const length = view.lengths.find((one) => one.lumen === lumen.ref)?.text;
          return (
            <g key={lumen.ref} class={lumen.keptFromUse ? 'lumen kept' : 'lumen'}>
              <path
                d={`M 40 ${startY(at)} H ${hubX - 20} C ${hubX + 20} ${startY(at)}, ${hubX} ${endY(at)}, ${hubX + 40} ${endY(at)} H ${hubX + 70}`}
              />
              {lumen.keptFromUse && (
                <line class="bar-across" x1={hubX + 58} x2={hubX + 58} y1={endY(at) - 9} y2={endY(at) + 9} />
              )}
              <text x={hubX + 78} y={endY(at) - 2}>
                {lumen.name}
              </text>
              <text class="lumen-state" x={hubX + 78} y={endY(at) + 12}>
                {lumen.state.replaceAll('-', ' ')}
                {length ? `, ${words.priming} ${length}` : ''}
              </text>
            </g>
          );
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
