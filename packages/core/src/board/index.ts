export { lineView } from './line-view.js';
export type * from './model.js';
export { otherCare } from './other-care.js';
export { unitView, type UnitViewOptions } from './unit-view.js';
