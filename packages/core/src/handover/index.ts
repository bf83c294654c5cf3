export {
  calendarFeed,
  feedDomain,
  readFeed,
  type CalendarFeedOptions,
  type FeedEvent,
} from './calendar-feed.js';
export { handover } from './handover.js';
export type { Advice } from './home-advice.js';
export { renderHomeHtml } from './home-html.js';
export { homeSheet, type HomeDay, type HomeLine, type HomeSheet, type HomeTodo } from './home-sheet.js';
export { renderHomeText } from './home-text.js';
export type * from './model.js';
export { renderHandover, type HandoverTextOptions } from './render-handover.js';
