export * from './base.js';
export * from './codes.js';
export { codeSystems, coding, displayOf } from './code-systems.js';
