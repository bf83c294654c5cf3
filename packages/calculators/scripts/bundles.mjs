// What importing one calculator brings into a browser bundle.
import { build } from 'esbuild';
import { camel, packageRoot, sourceFiles } from './calculators.mjs';

export const limitBytes = 12_000;

/** For each calculator, through its own path and through the package's face: bytes minified, files it drew in. */
export async function bundles() {
  return Promise.all(
    sourceFiles().flatMap(({ name, group }) =>
      [`@dwellward/calculators/${name}`, '@dwellward/calculators'].map(async (from) => {
        const { outputFiles, metafile } = await build({
          stdin: {
            contents: `import { ${camel(name)} } from '${from}'; globalThis.use = ${camel(name)};`,
            resolveDir: packageRoot,
          },
          bundle: true,
          minify: true,
          format: 'esm',
          platform: 'browser',
          conditions: ['dwellward-source'],
          absWorkingDir: packageRoot,
          write: false,
          metafile: true,
          // In memory; only needed so that esbuild names its output.
          outfile: 'bundle.js',
        });
        const drawnIn = Object.entries(Object.values(metafile.outputs)[0].inputs)
          .filter(([file, { bytesInOutput }]) => bytesInOutput > 0 && file !== '<stdin>')
          .map(([file]) => file);
        const foreign = drawnIn.filter(
          (file) => !file.startsWith('src/lib/') && file !== `src/${group}/${name}.ts`,
        );
        return { name, from, bytes: outputFiles[0].contents.length, drawnIn, foreign };
      }),
    ),
  );
}
