import type { Request } from 'express';
import { isLoopbackHost } from '../local.js';

/** What proxies add. One that listens for others passes on their requests from this machine. */
const signsOfProxy = ['forwarded', 'x-forwarded-for', 'x-forwarded-host', 'x-real-ip', 'via'];

/**
 * True for a request that a program of this machine made for this machine: the connection, and the name that it asked
 * for. A page from elsewhere can lead a browser here under a name of its own, and then names that.
 */
export function isLocalRequest(request: Request): boolean {
  const from = request.socket.remoteAddress;
  if (from === undefined || !isLoopbackHost(from)) return false;
  if (signsOfProxy.some((name) => request.get(name) !== undefined)) return false;
  const host = request.get('host') ?? '';
  return isLoopbackHost(host.replace(/:\d+$/, ''));
}
