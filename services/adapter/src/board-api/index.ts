export { Charting } from './charting.js';
export { boardApi, userHeader, type BoardApiOptions } from './routes.js';
export { readFigures, readMinutes, type Minutes } from './settings.js';
export { Unit } from './unit.js';
export { Viewers } from './viewers.js';
