export { codesSeen } from './codes-seen.js';
export { concerns, type CodeSeen, type Concern, type ReadAs, type Standing } from '../model/codes.js';
export { startMap } from './start-map.js';
export { renderCodes, type CodesTextOptions } from './render-codes.js';
