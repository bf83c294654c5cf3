// `npm run pack:check`: packs every package, installs the tarballs into an empty project elsewhere, and uses them there as
// a stranger would: strict types on three TypeScripts, README’s example, the commands, a bundle for the browser.
// `--quick` leaves out the other versions of Node.
import { execFile } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { Show } from '../show/check.mjs';
import { root } from '../show/run.mjs';
import { folders } from './published.mjs';

const quick = process.argv.includes('--quick');
const tools = join(root, 'tests/tools/node_modules');
const typescripts = ['5.9', '6.0', '7.0'];
const nodes = ['22', '24'];
const show = new Show();
const work = await mkdtemp(join(tmpdir(), 'dwellward-pack-'));
const elsewhere = join(work, 'project');

/** Runs a program; gives its output, and throws with it where it fails. */
const call = (program, args, cwd = elsewhere, accepted = [0]) =>
  new Promise((resolve, reject) => {
    const settings = {
      cwd,
      maxBuffer: 1e9,
      env: { ...process.env, NO_COLOR: '1', npm_config_loglevel: 'error' },
    };
    execFile(program, args, settings, (error, stdout, stderr) => {
      const code = error === null ? 0 : error.code;
      if (accepted.includes(code)) resolve(stdout);
      else
        reject(
          new Error(`${program} ${args.join(' ')} ends with ${code}: ${stdout}${stderr}`.slice(0, 4000)),
        );
    });
  });
const node = (args, cwd, accepted) => call(process.execPath, args, cwd, accepted);
const manifest = async (folder) => JSON.parse(await readFile(join(root, folder, 'package.json'), 'utf8'));

/** The first block of a language in a Markdown file. */
async function example(file, language) {
  const text = await readFile(join(root, file), 'utf8');
  const found = new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``).exec(text)?.[1];
  if (found === undefined) throw new Error(`${file} has no ${language} example`);
  return found;
}

const settings = (moduleResolution) => ({
  compilerOptions: {
    target: 'ES2023',
    module: moduleResolution === 'bundler' ? 'preserve' : 'nodenext',
    moduleResolution,
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    noImplicitOverride: true,
    verbatimModuleSyntax: true,
    skipLibCheck: false,
    noEmit: true,
    types: ['node'],
  },
  include: ['*.ts'],
});

try {
  const packed = new Map();
  await show.line('packed, with licence and README in each', async () => {
    const licence = await readFile(join(root, 'LICENSE'), 'utf8');
    const lacking = [];
    for (const folder of folders) {
      const text = await call(
        'npm',
        ['pack', '--json', '--ignore-scripts', '--pack-destination', work],
        join(root, folder),
      );
      const listed = JSON.parse(text);
      const [one] = Array.isArray(listed) ? listed : Object.values(listed);
      const files = one.files.map(({ path }) => path);
      packed.set(one.name, { file: join(work, one.filename), bytes: one.size, files: files.length });
      for (const wanted of ['LICENSE', 'README.md', 'package.json'])
        if (!files.includes(wanted)) lacking.push(`${one.name} has no ${wanted}`);
      for (const path of files)
        if (/\.test\.|\.kit\.|\/src\/|tsbuildinfo|reports\//.test(path))
          lacking.push(`${one.name} carries ${path}`);
      if ((await readFile(join(root, folder, 'LICENSE'), 'utf8')) !== licence)
        lacking.push(`${folder}/LICENSE differs`);
      const { repository, license, engines } = await manifest(folder);
      if (repository?.directory !== folder || license !== 'Apache-2.0' || engines?.node === undefined)
        lacking.push(`${folder}/package.json lacks repository, license or engines`);
    }
    const sizes = [...packed].map(([name, { bytes }]) => `${name} ${Math.round(bytes / 1024)} kB`);
    return { ok: lacking.length === 0, figure: [...lacking, ...sizes].join('; ') };
  });

  for (const [name, { file }] of packed) {
    await show.line(`publint, ${name}`, async () => {
      const text = await node([join(tools, 'publint/src/cli.js'), file, '--strict'], root);
      return { ok: /All good/.test(text), figure: text.trim().split('\n').at(-1) };
    });
    await show.line(`types of every entry resolve, ${name}`, async () => {
      const cli = join(tools, '@arethetypeswrong/cli/dist/index.js');
      // ESM alone is published: what CommonJS and the resolution of Node 10 would find is not asked.
      const text = await node([cli, file, '--profile', 'esm-only', '--format', 'ascii', '--no-emoji'], root);
      const entries = text.match(/^"?@dwellward.*$/gm)?.length ?? 0;
      return { ok: entries > 0, figure: `${entries} entries` };
    });
  }

  await show.line('installed into an empty project', async () => {
    await mkdir(elsewhere);
    await writeFile(
      join(elsewhere, 'package.json'),
      JSON.stringify({ name: 'stranger', private: true, type: 'module' }),
    );
    const files = [...packed.values()].map(({ file }) => file);
    await call('npm', ['install', '--no-audit', '--no-fund', ...files, '@types/node@20']);
    await cp(join(root, 'fixtures/lanternfern-unit.json'), join(elsewhere, 'unit.json'));
    const kept = (await readdir(join(elsewhere, 'node_modules'))).filter((name) => !name.startsWith('.'));
    const heavy = ['@medplum'].filter((name) => kept.includes(name));
    const own = await readdir(join(elsewhere, 'node_modules/@dwellward'));
    const foreign = own.filter((name) => !folders.some((folder) => folder.endsWith(`/${name}`)));
    const size = (await call('du', ['-sm', 'node_modules'])).split('\t')[0];
    return {
      ok: heavy.length + foreign.length === 0,
      figure: [...heavy, ...foreign, `${kept.length} packages and scopes, ${size} MB`].join('; '),
    };
  });

  await writeFile(join(elsewhere, 'readme.ts'), await example('README.md', 'ts'));
  for (const folder of folders) {
    const readme = join(folder, 'README.md');
    if (/```ts\n/.test(await readFile(join(root, readme), 'utf8')))
      await writeFile(join(elsewhere, `${folder.split('/')[1]}.ts`), await example(readme, 'ts'));
  }
  const whole = folders
    .filter((folder) => folder !== 'packages/cli')
    .map((folder) => `@dwellward/${folder.split('/')[1]}`);
  await writeFile(
    join(elsewhere, 'faces.ts'),
    whole.map((name, i) => `import * as face${i} from '${name}';\nvoid face${i};\n`).join(''),
  );
  for (const version of typescripts) {
    for (const resolution of ['nodenext', 'bundler']) {
      await show.line(
        `strict types, libraries checked too, TypeScript ${version}, ${resolution}`,
        async () => {
          const config = join(elsewhere, `tsconfig.${resolution}.json`);
          await writeFile(config, JSON.stringify(settings(resolution)));
          await node([join(tools, `typescript-${version}/bin/tsc`), '-p', config]);
          return { ok: true, figure: 'no error' };
        },
      );
    }
  }

  await show.line('README’s example runs there', async () => {
    await node([
      join(tools, 'typescript-6.0/bin/tsc'),
      '-p',
      'tsconfig.nodenext.json',
      '--noEmit',
      'false',
      '--outDir',
      'out',
    ]);
    const lines = (await node(['out/readme.js'])).trim().split('\n');
    return { ok: lines.length > 20, figure: `${lines.length} lines, the first: ${lines[0]}` };
  });
  await show.line('the packages’ own examples run there', async () => {
    const own = folders
      .map((folder) => folder.split('/')[1])
      .filter((name) => !['cli', 'adapter'].includes(name));
    for (const name of own) await node([`out/${name}.js`]);
    return { ok: true, figure: own.join(', ') };
  });
  const due = [
    ...['node_modules/@dwellward/cli/bin/dwellward.js', 'due', 'unit.json', '--zone', 'Europe/Berlin'],
    ...['--at', '2026-11-25T07:30:00+01:00', '--format', 'json'],
  ];
  await show.line('the commands run there', async () => {
    const { lines } = JSON.parse(await node(due, elsewhere, [0, 5]));
    await node(['node_modules/@dwellward/adapter/bin/dwellward-adapter.js', '--help']);
    return {
      ok: lines.length > 10,
      figure: `${lines.length} lines of the invented unit; the adapter’s --help`,
    };
  });
  for (const version of quick ? [] : nodes) {
    await show.line(`README’s example and the command, Node ${version}`, async () => {
      const other = ['--yes', '--package', `node@${version}`, '--', 'node'];
      const said = await call('npx', [...other, '--version']);
      await call('npx', [...other, 'out/readme.js']);
      await call('npx', [...other, ...due], elsewhere, [0, 5]);
      return { ok: said.startsWith(`v${version}.`), figure: said.trim() };
    });
  }

  const bundle = async (contents) => {
    const { outputFiles } = await build({
      ...{
        stdin: { contents, resolveDir: elsewhere },
        outfile: 'bundle.js',
        write: false,
        logLevel: 'silent',
      },
      ...{ bundle: true, minify: true, format: 'esm', platform: 'browser' },
    });
    return outputFiles[0].contents.length;
  };
  for (const [what, contents] of [
    ['one calculator', `export { flushVolume } from '@dwellward/calculators/flush-volume';`],
    [
      'records to due care',
      `export { readRecords, dueCare } from '@dwellward/core';\nexport { defaultPolicy } from '@dwellward/policy';`,
    ],
  ]) {
    await show.line(`bundles for the browser, ${what}`, async () => ({
      ok: true,
      figure: `${Math.ceil((await bundle(contents)) / 1024)} kB minified`,
    }));
  }
} finally {
  await rm(work, { recursive: true, force: true });
}
show.end();
