export { Calendars } from './calendars.js';
export { restApi, type RestApiOptions } from './routes.js';
export { scopeOfRest } from './scope.js';
