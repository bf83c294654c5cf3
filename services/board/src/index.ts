export { boardApp, startBoard, type BoardOptions, type RunningBoard } from './server.js';
