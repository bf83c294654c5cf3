export * from './base.js';
export * from './codes.js';
export * from './standard-codes.js';
export * from './activity-row.js';
export * from './activities.js';
export * from './finding-row.js';
export * from './findings.js';
export { codeSystems, coding, displayOf } from './code-systems.js';
