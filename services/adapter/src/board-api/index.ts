export { Charting } from './charting.js';
export { boardApi, type BoardApiOptions } from './routes.js';
export { Unit } from './unit.js';
