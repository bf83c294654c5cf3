/** What the operating system refused, in plain words, with how the command ends. */
export interface SystemRefusal {
  readonly code: 'unreadable-input' | 'not-written';
  readonly words: string;
}

const reading: Readonly<Record<string, string>> = {
  EACCES: 'you have no permission to read it',
  EPERM: 'you have no permission to read it',
  ENOENT: 'there is no such file or folder',
  EISDIR: 'it is a folder, and a file is wanted',
  ENOTDIR: 'a part of the path is no folder',
  EMFILE: 'too many files are open',
  EIO: 'the disk could not be read',
};

const writing: Readonly<Record<string, string>> = {
  EPIPE: 'who read the answer has stopped reading: the rest was not written.',
  ENOSPC: 'there is no room left: not all of the answer was written.',
  EDQUOT: 'your room on the disk is used up: not all of the answer was written.',
  EIO: 'the answer could not be written.',
};

/** Undefined of every error that the operating system did not give. */
export function systemRefusal(error: unknown): SystemRefusal | undefined {
  if (!(error instanceof Error) || !('code' in error) || typeof error.code !== 'string') return undefined;
  const call = 'syscall' in error ? String(error.syscall) : '';
  const written = call === 'write' || error.code === 'EPIPE' ? writing[error.code] : undefined;
  if (written !== undefined) return { code: 'not-written', words: written };
  const read = reading[error.code];
  if (read === undefined) return undefined;
  const path = 'path' in error && typeof error.path === 'string' ? `${error.path}: ` : '';
  return { code: 'unreadable-input', words: `${path}${read}.` };
}
