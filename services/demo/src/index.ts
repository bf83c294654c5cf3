export { runDemo, type DemoOptions } from './demo.js';
export { main, type Outside } from './main.js';
