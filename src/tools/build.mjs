// Bundles everything that runs outside the tests. `node src/tools/build.mjs [--watch]`
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import esbuild from 'esbuild';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const from = (file) => path.join(root, file);
const { version } = JSON.parse(fs.readFileSync(from('package.json'), 'utf8'));

const minifyIdentifiers = !process.argv.includes('--watch');

const common = {
  absWorkingDir: root,
  bundle: true,
  // Names stay as they are written, for the traces in error reports: to shorten them and keep them readable all the
  // same (`keepNames`) costs a call for each function made, a tenth of a check's time.
  minifyWhitespace: !process.argv.includes('--watch'),
  minifySyntax: !process.argv.includes('--watch'),
  sourcemap: process.argv.includes('--watch') ? 'linked' : false,
  legalComments: 'none',
  logLevel: 'warning',
  define: { LOTWRIGHT_VERSION: JSON.stringify(version) },
};

// The solver's ES module loader needs import.meta, which a CommonJS bundle lacks: its CommonJS form works in both.
const alias = { highs: from('node_modules/highs/build/highs.js') };

const node = { ...common, alias, platform: 'node', format: 'cjs', target: 'node20', external: ['vscode'] };
const web = {
  ...common,
  // Nobody reads error traces of the browser's bundles in a terminal: shorter names load sooner.
  minifyIdentifiers,
  // Its usual form takes bytes as Node has them, which browsers lack.
  alias: { ...alias, 'csv-parse/sync': from('node_modules/csv-parse/dist/esm/sync.js') },
  platform: 'browser',
  target: 'es2022',
  // The solver's loader names these and uses them only where it finds itself in Node.
  external: [
    'vscode',
    'node:module',
    'module',
    'fs',
    'path',
    'node:fs',
    'node:path',
    'node:url',
    'url',
    'node:crypto',
  ],
};

/** A module that stays a file of its own, beside the bundle. */
function besideIt(module, file) {
  return {
    name: 'beside-it',
    setup(build) {
      const filter = new RegExp(`^${module.replaceAll('.', '\\.')}$`);
      build.onResolve({ filter }, () => ({ path: file, external: true }));
    },
  };
}

const bundles = [
  // Nobody reads traces of the extension's own code in a terminal either.
  { ...node, minifyIdentifiers, entryPoints: ['extension/node-main.ts'], outfile: 'dist/extension.cjs' },
  // What answers a client's first request, by itself; then it loads all the rest.
  {
    ...node,
    minifyIdentifiers,
    plugins: [besideIt('./serve-node', './server-parts.cjs')],
    entryPoints: ['src/server/node.ts'],
    outfile: 'dist/server.cjs',
  },
  { ...node, entryPoints: ['src/server/serve-node.ts'], outfile: 'dist/server-parts.cjs' },
  {
    ...node,
    entryPoints: ['src/cli/main.ts'],
    outfile: 'dist/cli.cjs',
    banner: { js: '#!/usr/bin/env node' },
  },
  {
    ...node,
    entryPoints: ['src/cli/assistant/main.ts'],
    outfile: 'dist/mcp.cjs',
    banner: { js: '#!/usr/bin/env node' },
  },
  { ...node, entryPoints: ['src/server/worker-node.ts'], outfile: 'dist/worker.cjs' },
  // In the packed extension in place of the server's parts, command line and worker.
  { ...node, minifyIdentifiers, entryPoints: ['src/tools/packed-node.ts'], outfile: 'dist/packed-node.cjs' },
  { ...web, entryPoints: ['extension/web-main.ts'], outfile: 'dist/web/extension.js', format: 'cjs' },
  { ...web, entryPoints: ['src/server/web.ts'], outfile: 'dist/web/server.js', format: 'iife' },
  { ...web, entryPoints: ['src/server/worker-web.ts'], outfile: 'dist/web/worker.js', format: 'iife' },
  { ...web, entryPoints: ['extension/panel/main.ts'], outfile: 'dist/panel.js', format: 'iife' },
  { ...web, entryPoints: ['extension/panel/panel.css'], outfile: 'dist/panel.css' },
];

/** One character beyond these, in a pattern or a tagged text, and the engine keeps the whole file at two bytes each. */
function checkOneByte() {
  for (const { outfile, platform } of bundles)
    if (platform === 'node' && /[^\0-\x7f]/.test(fs.readFileSync(from(outfile), 'latin1')))
      throw new Error(`${outfile} has characters beyond ASCII: write them as escapes in the source`);
}

/** Files that the bundles read as they are: the solver's program, the findings' pages, the published schemas. */
function copyFiles() {
  fs.copyFileSync(from('node_modules/highs/build/highs.wasm'), from('dist/highs.wasm'));
  // The editor looks for the manifest's texts beside the manifest, and nowhere else.
  for (const name of ['package.nls.json', 'package.nls.de.json'])
    fs.copyFileSync(from(`extension/l10n/${name}`), from(name));
  // For editors that open a plan as plain YAML.
  fs.copyFileSync(from('schemas/lot-plan.schema.json'), from('dist/lot-plan.schema.json'));
  for (const [folder, to, keep] of [
    ['src/findings/pages', 'dist/pages', '.md'],
    ['schemas', 'dist/schemas', '.json'],
    ['sample-plans/first-season', 'dist/samples/first-season', ''],
  ]) {
    fs.rmSync(from(to), { recursive: true, force: true });
    fs.mkdirSync(from(to), { recursive: true });
    for (const name of fs.readdirSync(from(folder)).filter((file) => file.endsWith(keep)))
      fs.copyFileSync(path.join(from(folder), name), path.join(from(to), name));
  }
}

if (process.argv.includes('--watch')) {
  for (const bundle of bundles) await (await esbuild.context(bundle)).watch();
  copyFiles();
  console.log('watching; Ctrl-C ends');
} else {
  fs.rmSync(from('dist'), { recursive: true, force: true });
  await Promise.all(bundles.map((bundle) => esbuild.build(bundle)));
  checkOneByte();
  copyFiles();
  fs.chmodSync(from('dist/cli.cjs'), 0o755);
}
