export { careCards, notReadCard, notWholeCard, type CareCardOptions } from './care-cards.js';
export { draftOrders, type DraftReading } from './draft-orders.js';
export type * from './model.js';
export { orderCards, type OrderCardsOf } from './order-cards.js';
