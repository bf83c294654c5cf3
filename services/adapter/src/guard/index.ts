export { localGuard, need, tokenGuard, type Admission, type Guard } from './guard.js';
export { makeGuard, type GuardConfig } from './make-guard.js';
export { allowedAlgorithms, keysOfFile, keysOfUrl, KeysUnavailable } from './keys.js';
export { sendProblem, type Problem } from './problem.js';
export { scopes, type Scope } from './scopes.js';
