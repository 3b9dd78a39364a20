// Node's own modules, as the bundles get at them.

import fs from 'node:fs';
import { isBuiltin } from 'node:module';

/** Those that take long to load (5 to 10 ms each) and that few runs need. */
const SELDOM = new Set(['child_process', 'crypto', 'net', 'os', 'url']);

const TAKEN = /^const (\w+) = (?:__importStar\()?require\("(?:node:)?(\w+)"\)\)?;$/gm;

/** The protocol's libraries load Node's modules that they seldom need where they use them, and copy none of those they do. */
export function nodeModulesLate() {
  return {
    name: 'node-modules-late',
    setup(build) {
      build.onLoad(
        { filter: /vscode-(?:languageserver|jsonrpc)[\\/]lib[\\/]node[\\/]\w+\.js$/ },
        ({ path: file }) => ({
          contents: lateIn(fs.readFileSync(file, 'utf8')),
          loader: 'js',
        }),
      );
    },
  };
}

function lateIn(text) {
  const late = new Map();
  const rest = text.replaceAll(TAKEN, (whole, name, module) => {
    if (!isBuiltin(module)) return whole;
    if (!SELDOM.has(module)) return `const ${name} = require("${module}");`;
    late.set(name, module);
    return '';
  });
  return [...late].reduce(
    (now, [name, module]) => now.replaceAll(new RegExp(`\\b${name}\\.`, 'g'), `require("${module}").`),
    rest,
  );
}

/**
 * An `import` of one of Node's modules as a `require` of it: the bundler would copy the module, name by name, for each
 * file that has it.
 */
export function requiringNodes(text) {
  return text.replaceAll(
    /^import (?:(\w+)(?:, )?)?(?:\{([^}]*)\})? ?from "([^"]+)";$/gm,
    (whole, all, names, module) => {
      if (!isBuiltin(module)) return whole;
      const parts = [];
      if (all) parts.push(`const ${all} = require("${module}");`);
      if (names) parts.push(`const {${names.replaceAll(' as ', ': ')}} = require("${module}");`);
      return parts.join(' ');
    },
  );
}

/**
 * A library of Node's own kind as an ES module, for whoever imports it: the library itself, or one that stands before it
 * and adds `default`. The bundler's own copies every name, once for each of our files that imports some.
 */
export function uncopied(text) {
  const helper = /^var __toESM = [\s\S]*?\n\)\);$/m;
  if (text.includes('var __toESM') && !helper.test(text))
    throw new Error('the bundler writes __toESM otherwise');
  return text.replace(
    helper,
    `var __toESM = (mod, isNodeMode) => isNodeMode || !mod?.__esModule ? Object.create(Object(mod), { default: { value: mod } }) : mod;`,
  );
}
