// Bundles everything that runs outside the tests. `node src/tools/build.mjs [--watch]`
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import esbuild from 'esbuild';
import { buildParts } from './parts.mjs';

// What cannot be read builds nothing.
const { watch, help } = parseArgs({
  options: { watch: { type: 'boolean', default: false }, help: { type: 'boolean', short: 'h' } },
}).values;
if (help) {
  console.log('npm run build: all bundles; npm run watch: again whenever a file changes, with source maps.');
  process.exit(0);
}

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const from = (file) => path.join(root, file);
const { version } = JSON.parse(fs.readFileSync(from('package.json'), 'utf8'));

const minifyIdentifiers = !watch;

const common = {
  absWorkingDir: root,
  bundle: true,
  // Names stay as they are written, for the traces in error reports: to shorten them and keep them readable all the
  // same (`keepNames`) costs a call for each function made, a tenth of a check's time.
  minifyWhitespace: !watch,
  minifySyntax: !watch,
  sourcemap: watch ? 'linked' : false,
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

const ALONE = {
  extension: 'extension/node-main.ts',
  // What answers a client's first request, by itself; then it loads all the rest.
  server: 'src/server/node.ts',
};

/** Each entry one file of its name, made together. */
const inNode = (entryPoints) => ({ ...node, entryPoints, outdir: 'dist', outExtension: { '.js': '.cjs' } });

const webBundles = [
  { ...web, entryPoints: ['extension/web-main.ts'], outfile: 'dist/web/extension.js', format: 'cjs' },
  { ...web, entryPoints: ['src/server/web.ts'], outfile: 'dist/web/server.js', format: 'iife' },
  { ...web, entryPoints: ['src/server/worker-web.ts'], outfile: 'dist/web/worker.js', format: 'iife' },
  { ...web, entryPoints: ['extension/panel/main.ts'], outfile: 'dist/panel.js', format: 'iife' },
  { ...web, entryPoints: ['extension/panel/panel.css'], outfile: 'dist/panel.css' },
];

// From Node 22 on the engine keeps what it made of the text for the next time, which saves a quarter of a check.
const PROGRAM = "#!/usr/bin/env node\nrequire('node:module').enableCompileCache?.();\n";
const BANNERS = { cli: PROGRAM, mcp: PROGRAM };
/** Of the same parts, which they share; see `parts.mjs`. */
const PROGRAMS = {
  'server-parts': 'src/server/serve-node.ts',
  cli: 'src/cli/main.ts',
  mcp: 'src/cli/assistant/main.ts',
  worker: 'src/server/worker-node.ts',
};
/** What a worker goes on to be. The one that compares is made of what the server is made of. */
const STARTED = {
  'src/server/fill-worker/node.ts': 'worker',
  'src/release/draws-worker-node.ts': 'worker',
  'src/release/worker-node.ts': 'worker',
};

async function buildPrograms() {
  const { mcp, ...packed } = PROGRAMS;
  const { bundle, ...options } = node;
  const shared = { started: STARTED, banner: BANNERS };
  await buildParts({ ...shared, outdir: from('dist'), programs: PROGRAMS, options });
  // What the packed extension has in their place.
  const shorter = { ...options, minifyIdentifiers };
  await buildParts({ ...shared, outdir: from('dist/packed'), programs: packed, options: shorter });
}

/** One character beyond these, in a pattern or a tagged text, and the engine keeps the whole file at two bytes each. */
function checkOneByte() {
  for (const folder of ['dist', 'dist/packed'])
    for (const name of fs.readdirSync(from(folder)).filter((file) => file.endsWith('.cjs')))
      if (/[^\0-\x7f]/.test(fs.readFileSync(from(`${folder}/${name}`), 'latin1')))
        throw new Error(`${folder}/${name} has characters beyond ASCII: write them as escapes in the source`);
}

/** Files that the bundles read as they are: the solver's program, the findings' pages, the published schemas. */
function copyFiles() {
  fs.copyFileSync(from('node_modules/highs/build/highs.wasm'), from('dist/highs.wasm'));
  // The editor looks for the manifest's texts beside the manifest, and nowhere else.
  for (const name of ['package.nls.json', 'package.nls.de.json'])
    fs.copyFileSync(from(`extension/l10n/${name}`), from(name));
  // For the programs, and for editors that open a plan as plain YAML.
  const schema = JSON.parse(fs.readFileSync(from('schemas/lot-plan.schema.json'), 'utf8'));
  fs.writeFileSync(from('dist/lot-plan.schema.json'), JSON.stringify(schema));
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

if (watch) {
  // While somebody works on them each program is one file: that is made sooner.
  for (const bundle of [inNode({ ...ALONE, ...PROGRAMS }), ...webBundles])
    await (await esbuild.context(bundle)).watch();
  copyFiles();
  console.log('watching; Ctrl-C ends');
} else {
  fs.rmSync(from('dist'), { recursive: true, force: true });
  // Nobody reads traces of the extension's own code in a terminal either.
  const bundles = [{ ...inNode(ALONE), minifyIdentifiers }, ...webBundles];
  await Promise.all([buildPrograms(), ...bundles.map((bundle) => esbuild.build(bundle))]);
  checkOneByte();
  copyFiles();
  fs.chmodSync(from('dist/cli.cjs'), 0o755);
}
