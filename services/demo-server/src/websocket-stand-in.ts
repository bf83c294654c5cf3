// @medplum/core reads the constants of a global WebSocket while it loads; Node 20 has none. Nothing here opens one.
if (!('WebSocket' in globalThis)) {
  Object.defineProperty(globalThis, 'WebSocket', { configurable: true, value: { CLOSING: 2, CLOSED: 3 } });
}
export {};
