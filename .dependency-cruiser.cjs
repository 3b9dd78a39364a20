// The way data takes, as arrows: text -> plan -> rooms -> keeping -> release -> findings -> outputs.
// Each folder may use those before it and itself; nothing points back.
const ORDER = {
  plan: [],
  fruit: ['plan'],
  room: ['plan', 'fruit'],
  plant: ['plan', 'fruit', 'room'],
  keeping: ['plan', 'fruit', 'room'],
  fill: ['plan', 'fruit', 'room', 'plant', 'keeping'],
  release: ['plan', 'fruit', 'room', 'keeping'],
  expect: ['plan', 'fruit', 'room', 'plant', 'keeping', 'release'],
  scenario: ['plan', 'fruit', 'room', 'plant'],
  table: ['plan'],
  readings: ['plan', 'table'],
  watching: ['plan', 'fruit', 'room', 'plant', 'keeping', 'readings'],
  findings: [
    'plan',
    'fruit',
    'room',
    'plant',
    'keeping',
    'fill',
    'release',
    'expect',
    'scenario',
    'readings',
    'watching',
  ],
  compare: ['plan', 'fruit', 'room', 'plant', 'keeping', 'fill', 'release', 'findings'],
  'take-in': ['plan', 'findings', 'table'],
  learning: ['plan', 'fruit', 'room', 'plant', 'keeping', 'readings'],
  report: [
    'plan',
    'fruit',
    'room',
    'plant',
    'keeping',
    'fill',
    'release',
    'expect',
    'scenario',
    'findings',
    'compare',
    'take-in',
    'readings',
    'watching',
    'learning',
  ],
};
const SHELLS = ['server', 'cli', 'tools'];

const walls = Object.entries(ORDER).map(([folder, allowed]) => ({
  name: `src/${folder} uses only what comes before it`,
  severity: 'error',
  from: { path: `^src/${folder}/` },
  to: { path: '^(src|extension)/', pathNot: `^src/(${[folder, ...allowed].join('|')})/` },
}));

module.exports = {
  forbidden: [
    ...walls,
    {
      name: 'shells are not used by each other',
      severity: 'error',
      from: { path: `^src/(${SHELLS.join('|')})/` },
      to: { path: '^extension/' },
    },
    {
      name: 'the extension speaks to the server by its protocol, and shares with it how a disk is seen',
      severity: 'error',
      from: { path: '^extension/', pathNot: '^extension/panel/' },
      to: {
        path: '^src/',
        pathNot:
          '^src/(server/(protocol|disk/)|server/(fill|change)-worker/(protocol|run|node-runner)|release/[a-z-]*worker[a-z-]*|release/draws-(in-pool|pool|protocol|seek|wire)|release/run-release|release/types|report/(timeline|card)-types|plan/(dates|broken-write))',
      },
    },
    {
      name: 'the panel gets a view model only',
      severity: 'error',
      from: { path: '^extension/panel/' },
      // A name is cut in a picture as it is in a report: by a function of text alone, which knows nothing of plans.
      to: {
        path: '^(src|extension)/',
        pathNot: '^(extension/panel/|src/report/(timeline|card)-types|src/plan/shortened)',
      },
    },
    {
      name: 'no editor, files or processes in the pure steps',
      severity: 'error',
      from: {
        path: `^src/(${Object.keys(ORDER).join('|')})/`,
        pathNot: '^src/release/(highs|worker|node-worker|draws-worker|node-draws-worker)',
      },
      to: {
        path: '^(vscode|vscode-languageserver.*|node:.*|fs|path|os|child_process|worker_threads)$',
        dependencyTypes: ['core', 'npm', 'npm-dev'],
      },
    },
    {
      name: 'no circles',
      severity: 'error',
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ['type-only'] } },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: { extensions: ['.ts', '.mjs', '.js', '.json'] },
  },
};
