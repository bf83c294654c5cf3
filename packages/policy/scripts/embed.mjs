export function embed() {}
