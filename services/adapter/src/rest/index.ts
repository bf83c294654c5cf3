export { Calendars } from './calendars.js';
export { restApi, type RestApiOptions } from './routes.js';
