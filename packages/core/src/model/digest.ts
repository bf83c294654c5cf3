import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/** A name that is the same for the same parts: the first 128 bits of SHA-256, in hex. */
export function digest(...parts: readonly string[]): string {
  return bytesToHex(sha256(utf8ToBytes(parts.join('\u0000')))).slice(0, 32);
}
