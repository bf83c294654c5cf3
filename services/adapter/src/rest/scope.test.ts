import { expect, it } from 'vitest';
import { scopes } from '../guard/index.js';
import { scopeOfRest } from './index.js';

it.each([
  ['GET', '/12/due', scopes.boardRead],
  ['POST', '/preview', scopes.boardRead],
  ['POST', '/12/calendars', scopes.boardWrite],
  ['DELETE', '/12/calendars/1', scopes.boardWrite],
])('%s %s needs %s', (method, path, scope) => {
  expect(scopeOfRest({ method, path })).toBe(scope);
});
