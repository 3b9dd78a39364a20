// Bundles what runs in Node into files that are loaded only when they are needed.

import { createHash } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import esbuild from 'esbuild';
import { ASK, ELSEWHERE, LATE, lateModules } from './late-modules.mjs';
import { nodeModulesLate, requiringNodes, uncopied } from './node-modules-late.mjs';

/**
 * Builds `programs` (name → entry) into `outdir`, each as `<name>.cjs` beside the files that they share. What the same
 * programs load at once is one file; a late module is in a file that is read when one of its functions is called.
 * `started` are entries that are imported where a program begins to be one of several. Gives the files, and which each
 * program loads at once.
 *
 * The bundler splits ES modules alone, while Node's own kind is loaded sooner and at any moment. So what it splits is put
 * together into few files, and these are made to `require` each other: by plain values, for what is reached through a
 * getter costs a call.
 */
export async function buildParts({ outdir, programs, started = {}, banner = {}, options }) {
  const { absWorkingDir: root, minifyWhitespace, minifySyntax, minifyIdentifiers, ...bundling } = options;
  const { metafile, outputFiles } = await esbuild.build({
    ...bundling,
    absWorkingDir: root,
    entryPoints: { ...programs, ...Object.fromEntries(LATE.map((module) => [`late/${module}`, module])) },
    outdir,
    bundle: true,
    splitting: true,
    format: 'esm',
    plugins: [lateModules(root), besideIt(), nodeModulesLate()],
    metafile: true,
    write: false,
  });
  const chunks = chunksOf(root, metafile, outputFiles);
  const files = filesOf(chunks, programs, started);
  fs.mkdirSync(outdir, { recursive: true });
  await Promise.all(
    files.map(async (file) => {
      const whole = await joined(file);
      await checkSteady(whole, file);
      const text = uncopied(requiringNodes(requiring(whole, chunks)));
      const printed = { platform: 'node', target: 'node20', format: 'cjs', legalComments: 'none' };
      const { code } = await esbuild.transform(text, {
        ...printed,
        minifyWhitespace,
        minifySyntax,
        minifyIdentifiers,
      });
      fs.writeFileSync(path.join(outdir, `${file.name}.cjs`), (banner[file.name] ?? '') + marked(code));
    }),
  );
  return files;
}

/** Ends with a mark that no other text has: by it `compiled-files.ts` knows what it has kept of a file. */
function marked(code) {
  return `${code}// ${createHash('sha256').update(code).digest('hex')}\n`;
}

/** What the bundler has made: one chunk for all modules that the same entries reach. */
function chunksOf(root, metafile, outputFiles) {
  const texts = new Map(outputFiles.map((file) => [file.path, file.text]));
  const chunks = new Map();
  for (const [relative, { imports, exports, entryPoint }] of Object.entries(metafile.outputs)) {
    const at = path.join(root, relative);
    const needs = imports
      .filter(({ kind, external }) => kind === 'import-statement' && !external)
      .map((one) => path.join(root, one.path));
    chunks.set(at, { at, id: `p${chunks.size}`, text: texts.get(at), needs, exports, entryPoint });
  }
  return chunks;
}

/** Which chunks go into one file, those first that others need. */
function filesOf(chunks, programs, started) {
  const roles = {
    ...Object.fromEntries(Object.entries(programs).map(([name, entry]) => [entry, name])),
    ...started,
  };
  const reachedBy = new Map([...chunks.keys()].map((at) => [at, new Set()]));
  for (const { at, entryPoint } of chunks.values())
    if (entryPoint) for (const reached of closure(chunks, at)) reachedBy.get(reached).add(entryPoint);
  const files = new Map();
  for (const at of inOrder(chunks)) {
    const chunk = chunks.get(at);
    const name = fileName(chunk, [...reachedBy.get(at)], roles, programs);
    const file = files.get(name) ?? { name, chunks: [] };
    file.chunks.push(chunk);
    files.set(name, file);
    chunk.file = file;
    chunk.isProgram = programs[name] !== undefined && programs[name] === chunk.entryPoint;
  }
  return [...files.values()];
}

function fileName({ entryPoint }, reachedBy, roles, programs) {
  const program = Object.keys(programs).find((name) => programs[name] === entryPoint);
  if (program) return program;
  // What is imported only there may begin something: it must not come with others.
  if (entryPoint && !LATE.includes(entryPoint))
    return entryPoint.replace(/^src\/|\.\w+$/g, '').replaceAll('/', '-');
  const firsts = new Set(reachedBy.flatMap((entry) => roles[entry] ?? []));
  const families = new Set(
    reachedBy.filter((entry) => !roles[entry]).map((entry) => ELSEWHERE[entry] ?? entry.split('/')[1]),
  );
  if (firsts.size === 0) return families.size > 1 ? 'late-shared' : `late-${[...families]}`;
  const first = `of-${[...firsts].toSorted().join('-')}`;
  // What the server may need for a plan's findings must not come with all that another program loads at once.
  const isForFindings = [...families].some((family) => family !== 'report' && family !== 'server');
  return isForFindings && !firsts.has('server-parts') ? `${first}-late` : first;
}

/** What a chunk's export is called in its file: shorter than by itself, for the names stand in many files. */
const outside = ({ id, isProgram, exports }, name) =>
  isProgram ? name : `${id}_${exports.indexOf(name).toString(36)}`;

function closure(chunks, at, reached = new Set()) {
  if (reached.has(at)) return reached;
  reached.add(at);
  for (const need of chunks.get(at).needs) closure(chunks, need, reached);
  return reached;
}

/** Each after all that it needs. */
function inOrder(chunks) {
  const order = new Set();
  const add = (at) => {
    if (order.has(at)) return;
    for (const need of chunks.get(at).needs) add(need);
    order.add(at);
  };
  for (const at of chunks.keys()) add(at);
  return order;
}

/** The text of a file's chunks as one ES module, which exports each chunk's names by other names; a program's as they are. */
async function joined(file) {
  const inFile = new Map(file.chunks.map((chunk) => [chunk.at, chunk]));
  const listed = file.chunks
    .filter(({ exports }) => exports.length > 0)
    .map(
      (chunk) =>
        `export {${chunk.exports.map((name) => `${name} as ${outside(chunk, name)}`)}} from ${JSON.stringify(chunk.at)};`,
    );
  const bare = file.chunks
    .filter(({ exports }) => exports.length === 0)
    .map(({ at }) => `import ${JSON.stringify(at)};`);
  const chunksOnly = {
    name: 'chunks',
    setup(build) {
      build.onResolve({ filter: /.*/ }, ({ path: asked, resolveDir, kind }) => {
        if (kind === 'entry-point') return undefined;
        const at = path.resolve(resolveDir, asked);
        return inFile.has(at) && kind !== 'dynamic-import'
          ? { path: at, namespace: 'chunk' }
          : { path: asked.startsWith('.') ? at : asked, external: true };
      });
      build.onLoad({ filter: /.*/, namespace: 'chunk' }, ({ path: at }) => ({
        contents: inFile.get(at).text,
        resolveDir: path.dirname(at),
      }));
    },
  };
  const { outputFiles } = await esbuild.build({
    stdin: { contents: [...bare, ...listed].join('\n'), resolveDir: '/' },
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    plugins: [chunksOnly],
    write: false,
  });
  return outputFiles[0].text;
}

/** Whoever requires a file takes its values as they are then: none may be given another later, nor may a name hide Node's own. */
async function checkSteady(text, file) {
  const taken = /^(?:var|let|const|class|function\*?) (?:module|exports|require)\b/m.exec(text);
  if (taken) throw new Error(`${file.name}: "${taken[0]}" hides what Node gives a file`);
  const names = /^export \{([^}]*)\};$/m.exec(text)?.[1].split(',') ?? [];
  let steady = text;
  for (const name of names.map((one) => one.trim().split(' as ')[0]).filter(Boolean))
    steady = steady.replace(
      new RegExp(`^(?:var|let) (${name.replaceAll('$', '\\$')})(?= = )`, 'm'),
      () => `const ${name}`,
    );
  const { warnings } = await esbuild.transform(steady, { logLevel: 'silent' });
  const changed = warnings.find(({ id }) => id === 'assign-to-constant');
  if (changed) throw new Error(`${file.name}: ${changed.text} ${changed.location?.lineText ?? ''}`);
}

/** An ES module of ours as one of Node's own kind: `require` in place of `import` of chunks, plain values for exports. */
function requiring(text, chunks) {
  const entries = new Map([...chunks.values()].map((chunk) => [chunk.entryPoint, chunk]));
  const asked = (chunk) => {
    const pairs = chunk.exports.map((name) => `${name}: all.${outside(chunk, name)}`);
    return `((all) => ({${pairs}}))(require("./${chunk.file.name}.cjs"))`;
  };
  return text
    .replaceAll(/^import \{([^}]*)\} from "([^"]+)";$/gm, (whole, names, at) => {
      const chunk = chunks.get(at);
      if (!chunk) return whole;
      const taken = names
        .split(',')
        .map((one) => one.trim())
        .filter(Boolean)
        .map((one) => {
          const [name, as = name] = one.split(' as ');
          return `${outside(chunk, name)}: ${as}`;
        });
      return `const {${taken}} = require("./${chunk.file.name}.cjs");`;
    })
    .replaceAll(/^import "([^"]+)";$/gm, (whole, at) => {
      const chunk = chunks.get(at);
      return chunk ? `require("./${chunk.file.name}.cjs");` : whole;
    })
    .replaceAll(/\bimport\("([^"]+)"\)/g, (whole, at) => {
      const chunk = chunks.get(at);
      return chunk ? `Promise.resolve().then(() => ${asked(chunk)})` : whole;
    })
    .replaceAll(new RegExp(`\\b${ASK}\\("([^"]+)"\\)`, 'g'), (_, module) => asked(entries.get(module)))
    .replace(/^export \{([^}]*)\};$/m, (_, names) => {
      const given = names
        .split(',')
        .map((one) => one.trim())
        .filter(Boolean)
        .map((one) => {
          const [name, as = name] = one.split(' as ');
          return `${as}: ${name}`;
        });
      return `module.exports = {${given}};`;
    });
}

/** A schema stands beside the program as a file: to read it takes a tenth of what it takes as part of a program. */
function besideIt() {
  return {
    name: 'json-beside',
    setup(build) {
      build.onLoad({ filter: /\.schema\.json$/ }, ({ path: file }) => ({
        contents: `
import fs from 'node:fs';
import path from 'node:path';
export default JSON.parse(fs.readFileSync(path.join(__dirname, ${JSON.stringify(path.basename(file))}), 'utf8'));`,
        loader: 'js',
        resolveDir: path.dirname(file),
      }));
    },
  };
}
