import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { demoInstant, demoUnit, demoZone } from '@dwellward/fixtures';
import { describe, expect, it } from 'vitest';
import { run, systemRefusal } from './index.js';

async function dwellward(args: readonly string[], more: { readonly write?: (text: string) => void } = {}) {
  let [out, err] = ['', ''];
  const exit = await run(args, {
    stdin: (async function* () {})(),
    write: (text) => {
      more.write?.(text);
      out += text;
    },
    warn: (text) => void (err += text),
    colour: false,
    columns: 0,
    progress: false,
    now: () => demoInstant,
  });
  return { exit, out, err };
}

const folder = mkdtempSync(join(tmpdir(), 'dwellward-'));
const at = ['--at', demoInstant, '--zone', demoZone];

describe('T2: what the operating system refuses', () => {
  const broken = (code: string, syscall: string) => Object.assign(new Error(`${code}: x`), { code, syscall });

  it.each([
    ['a closed pipe', 'EPIPE', 'stopped reading'],
    ['a full disk', 'ENOSPC', 'no room left'],
  ])('T2: %s ends with plain words and a code of its own, and no stack', async (_, code, words) => {
    const { exit, err } = await dwellward(['--help'], {});
    expect({ exit, err }).toEqual({ exit: 0, err: '' });
    const path = join(folder, 'unit.json');
    writeFileSync(path, JSON.stringify(demoUnit()));
    const failed = await dwellward(['due', path, ...at], {
      write: () => {
        throw broken(code, 'write');
      },
    });
    expect(failed.exit).toBe(7);
    expect(failed.err).toContain(words);
    expect(failed.err).not.toMatch(/\n\s+at |Error:/);
  });

  it.each([
    ['EACCES', 'scandir', 'no permission'],
    ['ENOENT', 'open', 'no such file'],
  ])('T2: %s is an input that can’t be read, in plain words', (code, call, words) => {
    expect(systemRefusal(Object.assign(broken(code, call), { path: 'unit/' }))).toMatchObject({
      code: 'unreadable-input',
      words: expect.stringContaining(words) as string,
    });
    expect(systemRefusal(new Error('other'))).toBeUndefined();
  });
});

describe('T6: as people expect of a command', () => {
  it('T6: says its version', async () => {
    expect(await dwellward(['--version'])).toMatchObject({ exit: 0, out: 'dwellward 0.1.0\n' });
  });

  it.each([
    [['deu'], 'Did you mean due?'],
    [['due', '--polcy', 'x'], 'There is no option --polcy. Did you mean --policy?'],
    [
      ['explain', 'unit.json', '--line', 'x', '--activity', 'dresing-change'],
      'Did you mean dressing-change?',
    ],
  ])('T6: says what was meant: %j', async (args, words) => {
    const { exit, err } = await dwellward(args);
    expect(exit).toBe(2);
    expect(err).toContain(words);
  });

  it('T6: says what was meant of a lumen, and names the lumens where nothing is near', async () => {
    const path = join(folder, 'unit-3.json');
    writeFileSync(path, JSON.stringify(demoUnit()));
    const draw = ['draw', path, ...at, '--line', 'alder-tunneled', '--tests', 'culture=10', '--lumen'];
    expect((await dwellward([...draw, 'rad'])).err).toContain('Did you mean red?');
    expect((await dwellward([...draw, 'something else'])).err).toMatch(/Lumens: .*red/);
  });

  it('T6: says what was meant of a line and of a patient, and how to see what opens later', async () => {
    const path = join(folder, 'unit-2.json');
    writeFileSync(path, JSON.stringify(demoUnit()));
    expect((await dwellward(['explain', path, ...at, '--line', 'spindel-picc'])).err).toContain(
      'Did you mean spindle-picc?',
    );
    expect((await dwellward(['home', path, ...at, '--patient', 'spindle-wagtial'])).err).toContain(
      'Did you mean spindle-wagtail?',
    );
    expect((await dwellward(['due', path, ...at])).out).toMatch(/and \d+ that opens? later; --all shows/);
  });
});
