import { createReadStream } from 'node:fs';
import { createGunzip } from 'node:zlib';

/** A file or a stream that is no text that can be read. */
export class TextError extends Error {}

// Of a large file most of the time would go into the turns between small pieces.
const readAtOnce = 256 * 1024;

type Bytes = AsyncIterable<Uint8Array | string>;

/** The bytes of a file; of one that ends in `.gz`, what is packed in it. `onRead` is told how many bytes of the file were read. */
export async function* bytesOf(path: string, onRead?: (bytes: number) => void): AsyncGenerator<Uint8Array> {
  const file = createReadStream(path, { highWaterMark: readAtOnce });
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

/**
 * Whole lines of a text as bytes of UTF-8, some at a time, each with its end but maybe the last of all. What is in UTF-16 is
 * written in UTF-8.
 */
export async function* wholeLines(bytes: Bytes): AsyncGenerator<Buffer> {
  let rest = Buffer.alloc(0);
  for await (const chunk of inUtf8(bytes)) {
    const end = chunk.lastIndexOf(newline) + 1;
    if (end > 0)
      yield rest.length === 0 ? chunk.subarray(0, end) : Buffer.concat([rest, chunk.subarray(0, end)]);
    rest = end > 0 ? Buffer.from(chunk.subarray(end)) : Buffer.concat([rest, chunk]);
  }
  if (rest.length > 0) yield rest;
}

/** Tells where each line begins and ends, without the ends of lines. */
export function eachLine(bytes: Buffer, tell: (from: number, to: number) => void): void {
  for (let from = 0; from < bytes.length;) {
    const end = bytes.indexOf(newline, from);
    const to = end < 0 ? bytes.length : end;
    tell(from, bytes[to - 1] === carriageReturn && to > from ? to - 1 : to);
    from = to + 1;
  }
}

const newline = 0x0a;
const carriageReturn = 0x0d;
const markOfUtf8 = Buffer.from([0xef, 0xbb, 0xbf]);

async function* inUtf8(bytes: Bytes): AsyncGenerator<Buffer> {
  const parts = bytes[Symbol.asyncIterator]();
  // As many as tell what it is written in.
  let head = Buffer.alloc(0);
  let done = false;
  while (!done && head.length < markOfUtf8.length) {
    const next = await parts.next();
    done = next.done === true;
    if (!done) head = Buffer.concat([head, bufferOf(next.value as Uint8Array | string)]);
  }
  const rest = { [Symbol.asyncIterator]: () => parts };
  if (encodingOf(head) !== 'utf-8') {
    for await (const text of decoded(joined(head, rest), false)) yield Buffer.from(text);
    return;
  }
  yield head.subarray(0, markOfUtf8.length).equals(markOfUtf8) ? head.subarray(markOfUtf8.length) : head;
  for await (const part of rest) yield bufferOf(part);
}

async function* joined(head: Uint8Array, rest: Bytes): AsyncGenerator<Uint8Array | string> {
  yield head;
  yield* rest;
}

function bufferOf(part: Uint8Array | string): Buffer {
  return typeof part === 'string'
    ? Buffer.from(part)
    : Buffer.from(part.buffer, part.byteOffset, part.byteLength);
}
