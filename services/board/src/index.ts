export { boardApp, startBoard, type BoardOptions, type RunningBoard } from './server.js';
export { main, type Outside } from './main.js';
