import type { AsOf, Hold, LineCare } from '../model/care.js';
import type { LineRecord, NotUnderstood, Ref } from '../model/record.js';
import { holdRows } from '../table/hold-rows.js';
import { Calendar } from '../timeline/calendar.js';
import { english } from '../words/english.js';
import type { Language } from '../words/language.js';
import { notUnderstoodSaid } from '../words/not-understood.js';
import { speaker, type Say } from '../words/say.js';
import { bySource, citedBy, holdsInForce, plainCard, sourceOf } from './care-cards.js';
import { fitted } from './fitted.js';
import type { CareCard, DraftOrder } from './model.js';

/** What orders are held against. */
export interface OrderCardsOf {
  readonly orders: readonly DraftOrder[];
  /** Of orders that name a line: what was not understood. */
  readonly notUnderstood: readonly NotUnderstood[];
  readonly lines: readonly LineRecord[];
  /** The care of the lines without the orders, at `when`. */
  readonly cares: readonly LineCare[];
  readonly when: AsOf;
}

/**
 * A card for every order that goes against what must not be done to a line, with the source of the hold; none where
 * nothing does. An order that names no line may go through any: it is told as information while a lumen is left that
 * is not held, and else as a warning.
 * @example
 * ```ts
 * orderCards({ orders: [], notUnderstood: [], lines: records.lines, cares, when }); // []
 * ```
 */
export function orderCards(of: OrderCardsOf, language: Language = english): CareCard[] {
  const { orders, notUnderstood, lines, cares, when } = of;
  const say = speaker(language, new Calendar(when.zone));
  const not = notUnderstoodSaid(notUnderstood, Infinity);
  const parts = (not?.kinds ?? []).map((one) => ({ text: say(one), more: [] }));
  const byRef = new Map(lines.map((line) => [line.ref, line]));
  return [
    ...(not ? [plainCard('not-understood', say({ code: 'order-not-understood' }), parts, say)] : []),
    ...(orders.length > 0 ? notComputedCards(cares, byRef, say) : []),
    ...orders.flatMap((order) =>
      cares
        .filter(({ inPlace }) => inPlace)
        .flatMap((care) => {
          const line = byRef.get(care.line);
          const holds = holdsInForce(care, when).filter((hold) => meets(order, hold, care.line, line));
          return bySource(holds, say).flatMap((group) =>
            cardsOf(order, care, line, group, othersFree(order, of), say),
          );
        }),
    ),
  ];
}

/** Of a line whose care could not be worked out nobody knows what must not be done: no card would read as nothing. */
function notComputedCards(
  cares: readonly LineCare[],
  lines: ReadonlyMap<Ref, LineRecord>,
  say: Say,
): CareCard[] {
  return cares
    .filter(({ notComputed }) => notComputed === true)
    .flatMap(({ line, warnings }) => {
      const name = say(lines.get(line)?.name ?? { code: 'named', name: line });
      return warnings.map((warning) => ({
        ...plainCard('warning', `${name}: ${say(warning)}`, [], say),
        line,
      }));
    });
}

/** Whether a hold stands in the way of an order: one of a lumen does where the order names that lumen or none. */
function meets(
  { activity, target }: DraftOrder,
  hold: Hold,
  lineRef: Ref,
  line: LineRecord | undefined,
): boolean {
  if (hold.activity !== activity) return false;
  if (target === undefined || target === lineRef) return true;
  const lumens = (line?.lumens ?? []).filter(({ ref, device }) => ref === target || device === target);
  if (lumens.length === 0) return false;
  return hold.target.scope !== 'lumen' || lumens.some(({ ref }) => ref === hold.target.ref);
}

/** Whether an order that names no line could be carried out on a lumen that is not held. */
function othersFree({ activity, target }: DraftOrder, { cares, lines, when }: OrderCardsOf): boolean {
  if (target !== undefined) return false;
  return cares.some((care) => {
    const line = lines.find(({ ref }) => ref === care.line);
    const holds = holdsInForce(care, when).filter((hold) => hold.activity === activity);
    return (
      care.inPlace &&
      care.notComputed !== true &&
      (line?.lumens ?? []).some(
        (lumen) => !holds.some(({ target: of }) => of.scope !== 'lumen' || of.ref === lumen.ref),
      )
    );
  });
}

function cardsOf(
  { ref, text, target, activity }: DraftOrder,
  care: LineCare,
  line: LineRecord | undefined,
  holds: readonly Hold[],
  free: boolean,
  say: Say,
): CareCard[] {
  const order = say({ code: 'order-is', ref, activity, ...(text === undefined ? {} : { text }) });
  return holdRows(holds, (line?.lumens.length ?? 0) > 1).map((hold): CareCard => {
    const whole = say({
      code: 'order-meets-hold',
      line: line?.name ?? { code: 'named', name: care.line },
      named: target !== undefined,
      hold,
    });
    return {
      kind: 'order',
      urgency: free ? 'info' : 'warning',
      summary: fitted(whole),
      parts: [
        { text: order, more: [whole, ...citedBy(holds, say)] },
        { text: say({ code: 'advice-not-order' }), more: [] },
      ],
      source: sourceOf(holds[0]?.rule, say),
      line: care.line,
      acts: [],
    };
  });
}
