import type { Request } from 'express';
import { scopes, type Scope } from '../guard/index.js';

/** Whoever makes a calendar lets others in by its token, or shuts them out: that is no reading. A preview is. */
export function scopeOfRest({ method, path }: Pick<Request, 'method' | 'path'>): Scope {
  const reads = method === 'GET' || method === 'HEAD' || !path.includes('/calendars');
  return reads ? scopes.boardRead : scopes.boardWrite;
}
