/** Names and addresses that lead to this machine and no other. */
export function isLoopbackHost(host: string): boolean {
  const bare = host.toLowerCase().replace(/^\[(.*)\]$/, '$1');
  return bare === 'localhost' || bare === '::1' || /^(::ffff:)?127(\.\d{1,3}){3}$/.test(bare);
}

/** True for a URL on which nobody listens: https, or http that stays on this machine; without a user name. */
export function isSafeUrl(text: string): boolean {
  if (!URL.canParse(text)) return false;
  const { protocol, hostname, username, password } = new URL(text);
  if (username !== '' || password !== '') return false;
  return protocol === 'https:' || (protocol === 'http:' && isLoopbackHost(hostname));
}
