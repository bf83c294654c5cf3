import { rereadFile } from '../reread-file.js';
import { NoToken, tokenPattern, type Authorization } from './authorization.js';

/**
 * A token that somebody else renews in a file, read anew for every call. A file that is gone or empty is a token that
 * was taken away: the last one is not used on.
 */
export function tokenOfFile(path: string): Authorization {
  const read = rereadFile(path, (text) => {
    const token = text.trim();
    if (!tokenPattern.test(token))
      throw new Error('it holds no token of printable ASCII characters without spaces');
    return token;
  });
  const token = () =>
    read().catch((error: unknown) => {
      throw new NoToken(`the token’s file can’t be used: ${reasonOf(error)}`, { cause: error });
    });
  return {
    token,
    async another(refused) {
      const now = await token();
      return now === refused ? undefined : now;
    },
  };
}

/** The system's code, or a sentence of ours; a path or a text of the file is in neither. */
export function reasonOf(error: unknown): string {
  const { code, message } = (error ?? {}) as { code?: unknown; message?: unknown };
  return typeof code === 'string' ? code : String(message);
}
