import { createReadStream } from 'node:fs';
import { createGunzip } from 'node:zlib';

/** A file or a stream that is no text that can be read. */
export class TextError extends Error {}

type Bytes = AsyncIterable<Uint8Array | string>;

/** The bytes of a file; of one that ends in `.gz`, what is packed in it. `onRead` is told how many bytes of the file were read. */
export async function* bytesOf(path: string, onRead?: (bytes: number) => void): AsyncGenerator<Uint8Array> {
  const file = createReadStream(path);
  const packed = path.toLowerCase().endsWith('.gz');
  const stream = packed ? file.pipe(createGunzip()) : file;
  file.on('error', (error) => stream.destroy(error));
  for await (const chunk of stream as AsyncIterable<Uint8Array>) {
    onRead?.(file.bytesRead);
    yield chunk;
  }
}

/**
 * Text by what its first bytes say: UTF-8, or UTF-16 as some editors and exports write it, with its mark or without. The
 * mark is no part of the text. Where `strict`, bytes that are no text in it are refused with a TextError; else each is replaced by U+FFFD.
 */
export async function* decoded(bytes: Bytes, strict: boolean): AsyncGenerator<string> {
  let decoder: InstanceType<typeof TextDecoder> | undefined;
  const decode = (chunk: Uint8Array | undefined) => {
    try {
      decoder ??= new TextDecoder(encodingOf(chunk ?? new Uint8Array()), { fatal: strict });
      return chunk === undefined ? decoder.decode() : decoder.decode(chunk, { stream: true });
    } catch (cause) {
      throw new TextError('it is not text in UTF-8 or UTF-16; save or export it as UTF-8', { cause });
    }
  };
  // The first two bytes may come one by one.
  let held: Uint8Array | undefined;
  for await (const part of bytes) {
    let chunk = typeof part === 'string' ? new TextEncoder().encode(part) : part;
    if (held !== undefined) chunk = Buffer.concat([held, chunk]);
    held = decoder === undefined && chunk.length < 2 ? chunk : undefined;
    if (held === undefined) yield decode(chunk);
  }
  if (held !== undefined) yield decode(held);
  yield decode(undefined);
}

function encodingOf([first, second]: Uint8Array): 'utf-8' | 'utf-16le' | 'utf-16be' {
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  // JSON begins with an ASCII sign, so a zero beside it is half of one in UTF-16.
  if (second === 0 && first !== 0 && first !== undefined) return 'utf-16le';
  return first === 0 && second !== 0 && second !== undefined ? 'utf-16be' : 'utf-8';
}

/** All of a text. */
export async function wholeText(chunks: AsyncIterable<string>): Promise<string> {
  let text = '';
  for await (const chunk of chunks) text += chunk;
  return text;
}

/** A text line by line, without the ends of lines. */
export async function* linesOf(chunks: AsyncIterable<string>): AsyncGenerator<string> {
  let rest = '';
  for await (const chunk of chunks) {
    const lines = (rest + chunk).split(/\r?\n/);
    rest = lines.pop() ?? '';
    yield* lines;
  }
  if (rest !== '') yield rest.replace(/\r$/, '');
}
