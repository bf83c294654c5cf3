import { beforeEach, expect, it } from 'vitest';
import { main } from './main.js';

let printed: string[];
let complained: string[];
beforeEach(() => {
  printed = [];
  complained = [];
});
const run = (...args: string[]) =>
  main(args, {
    print: (text) => void printed.push(text),
    printError: (text) => void complained.push(text),
    colour: false,
    columns: 120,
    interactive: false,
    interrupted: Promise.resolve(),
  });

it('--help gives examples and exit codes', async () => {
  expect(await run('--help')).toBe(0);
  for (const word of ['dwellward-demo --serve', 'Exit codes']) expect(printed[0]).toContain(word);
});

it.each(['--nonsense', 'file.json', '--port=x', '--port=70000'])(
  '%s is refused with exit code 2',
  async (word) => {
    expect(await run(word)).toBe(2);
    expect(complained[0]).toContain('--help');
  },
);

it('shows the unit’s due care, what an hour changes, and that second runs write nothing', async () => {
  expect(await run()).toBe(0);
  const text = printed.join('\n');
  expect(text).toContain('Line care due at Wed 25 Nov 07:30 (Europe/Berlin)');
  expect(text.match(/A second run wrote 0 resources/g)).toHaveLength(2);
  expect(text).toMatch(/Hemlock Heron.*Dressing change: now due by Wed 25 Nov 10:00, was Thu 26 Nov 10:00/);
  expect(text).toMatch(/Buckthorn Bittern.*Dressing change: done at Wed 25 Nov 08:05/);
  expect(text).not.toContain('could not be brought in step');
  expect(text).not.toContain('[object');
});

it('--serve keeps server, adapter and board running until it is interrupted', async () => {
  expect(await run('--serve')).toBe(0);
  expect(printed.join('\n')).toMatch(/board +http:[^]*adapter +http:.*\/readyz/);
});
