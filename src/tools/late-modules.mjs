// Which modules are loaded when they are first asked for, and what the bundler is given in their place.

import fs from 'node:fs';
import path from 'node:path';

/**
 * Where what the server or a command needs only now and then begins. A module may stand here when it exports nothing but
 * functions, for these can be called before it is there. What it alone imports comes with it.
 */
export const LATE = [
  'src/expect/judge.ts',
  'src/fill/checker.ts',
  'src/fill/new-fills.ts',
  'src/findings/fills/judge.ts',
  'src/findings/fills/problem.ts',
  'src/findings/fills/remarks.ts',
  'src/findings/order-supply.ts',
  'src/learning/written.ts',
  'src/plan/check/full-check.ts',
  'src/plan/check/key-messages.ts',
  'src/plan/check/often-errors.ts',
  'src/plan/check/seldom-errors.ts',
  'src/plan/layout/lay-out.ts',
  'src/plan/text/full-parse.ts',
  'src/plan/text/repairs.ts',
  'src/plan/text/section-keys.ts',
  'src/plan/text/syntax-messages.ts',
  'src/plant/group-remedies.ts',
  'src/plant/scrubber-remedies.ts',
  'src/release/around.ts',
  'src/release/cures.ts',
  'src/release/draw-inputs.ts',
  'src/release/field-sources.ts',
  'src/release/packed-waits.ts',
  'src/release/quick.ts',
  'src/release/reasons.ts',
  'src/report/around-text.ts',
  'src/report/assistant/answer.ts',
  'src/report/assistant/asked.ts',
  'src/report/compare-words.ts',
  'src/report/drawn-markdown.ts',
  'src/report/expect-report.ts',
  'src/report/expect-text.ts',
  'src/report/fill-markdown.ts',
  'src/report/fill-report.ts',
  'src/report/find-thing.ts',
  'src/report/learn-report.ts',
  'src/report/learn-season.ts',
  'src/report/learn-words.ts',
  'src/report/lesson-card.ts',
  'src/report/new-plan.ts',
  'src/report/other-week.ts',
  'src/report/papers/packed-season.ts',
  'src/report/papers/paper-files.ts',
  'src/report/papers/papers.ts',
  'src/report/papers/season-account.ts',
  'src/report/room-card.ts',
  'src/report/season-card.ts',
  'src/report/take-in-markdown.ts',
  'src/report/take-in-report.ts',
  'src/report/things.ts',
  'src/report/timeline.ts',
  'src/report/timeline-drawn.ts',
  'src/room/course/closed/cold.ts',
  'src/server/services/actions.ts',
  'src/server/services/completion.ts',
  'src/server/services/definition.ts',
  'src/server/services/explain.ts',
  'src/server/services/fills.ts',
  'src/server/services/fix-all.ts',
  'src/server/services/folding.ts',
  'src/server/services/hints.ts',
  'src/server/services/hover.ts',
  'src/server/services/lenses.ts',
  'src/server/services/lessons.ts',
  'src/server/services/links.ts',
  'src/server/services/names-painted.ts',
  'src/server/services/outline.ts',
  'src/server/services/pins.ts',
  'src/server/services/quantity-help.ts',
  'src/server/services/rename.ts',
  'src/server/services/selection.ts',
  'src/server/services/subject.ts',
  'src/server/services/symbols.ts',
  'src/take-in/take-in.ts',
];

/**
 * Those that are not in the file of their folder: what is large and seldom needed by itself, so that the first key with
 * a mistake does not wait for the reader of all of YAML, nor for what knows how a scenario is written.
 */
export const ELSEWHERE = {
  'src/plan/check/often-errors.ts': 'plan-often',
  'src/plan/check/seldom-errors.ts': 'plan-seldom',
  'src/plan/layout/lay-out.ts': 'yaml',
  'src/plan/text/full-parse.ts': 'yaml',
  'src/plan/text/repairs.ts': 'yaml',
  'src/plan/text/syntax-messages.ts': 'yaml',
};

/** How the bundles ask for a late module until they know its file. */
export const ASK = '__late';

/** What the entry of a late module is called. */
export const lateName = (module) => `late/${module}`;

/** Gives whoever imports a late module functions that fetch it when they are called. */
export function lateModules(root) {
  const byName = new Set(LATE.map((module) => path.basename(module, path.extname(module))));
  const filter = new RegExp(`(^|/)(${[...byName].join('|')})(\\.ts)?$`);
  return {
    name: 'late-modules',
    setup(build) {
      build.onResolve({ filter }, async ({ path: asked, importer, resolveDir, kind, pluginData }) => {
        if (kind !== 'import-statement' || pluginData === 'found') return undefined;
        const found = await build.resolve(asked, { importer, resolveDir, kind, pluginData: 'found' });
        const module = path.relative(root, found.path).replaceAll('\\', '/');
        return LATE.includes(module) ? { path: module, namespace: 'late', sideEffects: false } : undefined;
      });
      build.onLoad({ filter: /.*/, namespace: 'late' }, ({ path: module }) => ({
        contents: standIn(module, fs.readFileSync(path.join(root, module), 'utf8')),
      }));
    },
  };
}

function standIn(module, source) {
  const functions = [];
  for (const [, exported] of source.matchAll(/^export\s+(.*)$/gm)) {
    if (/^(interface|type|declare)\b/.test(exported)) continue;
    const name = /^(?:async )?function\*? (\w+)/.exec(exported)?.[1];
    if (!name) throw new Error(`${module} is loaded late, so it may export functions only: ${exported}`);
    functions.push(name);
  }
  const asked = functions.map(
    (name) => `export function ${name}(...given) { return found().${name}(...given); }`,
  );
  return [`let fetched; const found = () => (fetched ??= ${ASK}(${JSON.stringify(module)}));`, ...asked].join(
    '\n',
  );
}
