import { describe, expect, it } from 'vitest';
import { KIND, type Listed } from '../../src/server/disk/walked-files';
import type { AddressedDisk } from '../../src/server/opening-files';
import { type Ahead, aheadIn } from '../../src/server/protocol-ahead';
import { type ClientOptions, ROOT, TestClient } from './client';
import { computed, samplePlan } from './plans';

const FRUIT = `${ROOT}/fruit.lotplan.yaml`;
const onDisk = [{ folder: ROOT, exclude: {} }];
const said: Ahead = { folders: [ROOT], onDisk, settings: {} };
const sample = samplePlan('first-season');

function files(): Map<string, string> {
  return new Map(sample.map(({ path, text }) => [`${ROOT}/${path}`, text]));
}

/** A disk with the client's files, which are written down each time one is read. */
function diskWith(all: ReadonlyMap<string, string>) {
  const read: string[] = [];
  const disk: AddressedDisk = {
    pathOf: (uri) => uri,
    list: async (folder): Promise<Listed[]> =>
      [...all.keys()].map((uri) => [uri.slice(folder.length + 1), KIND.file]),
    read: async (uri) => {
      read.push(uri);
      return new TextEncoder().encode(all.get(uri));
    },
  };
  return { disk, read };
}

function client(options: ClientOptions = {}, all = files()) {
  const { disk, read } = diskWith(all);
  return { all, read, client: new TestClient(all, { ahead: said, onDisk, disk, settings: {}, ...options }) };
}

const wait = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

describe('folders that a client says before its first request', () => {
  it('have their plans computed, and told of only after it, with the files read once', async () => {
    const { client: one, read } = client();
    await wait(500);
    expect([read.length, one.published]).toEqual([sample.length, []]);
    await one.start();
    await one.until('the findings', () => one.computed.length > 0);
    const found = computed(sample).findings.filter(({ at }) => at?.file === 'fruit.lotplan.yaml');
    expect(one.codes(FRUIT)).toEqual(expect.arrayContaining([...new Set(found.map(({ code }) => code))]));
    expect(read).toHaveLength(sample.length);
    await one.stop();
  });

  it('are opened anew where the first request names others, or files that are left out', async () => {
    for (const other of [
      { ...said, folders: [`${ROOT}/north`] },
      { ...said, onDisk: [] },
    ]) {
      const { client: one } = client({ ahead: other });
      await one.start();
      await one.until('the findings', () => one.computed.some(({ rooms }) => rooms === 4));
      await one.stop();
    }
  });

  it('have the severities of the settings that the first request brings', async () => {
    const [noticed] = computed(sample).findings.filter(({ severity }) => severity === 'notice');
    const { client: one } = client({ settings: { findings: { [noticed?.code ?? '']: 'error' } } });
    await wait(300);
    await one.start();
    await one.until('an error', () => (one.computed.at(-1)?.findings.errors ?? 0) > 0);
    await one.stop();
  });

  it('have what is wrong with the settings told in the log, after the first request', async () => {
    const wrong = { findings: { 'lime-dust': 'loud' } };
    const { client: one } = client({ ahead: { ...said, settings: wrong }, settings: wrong });
    await wait(300);
    expect(one.log).toEqual([]);
    await one.start();
    await one.until('the findings', () => one.computed.length > 0);
    expect(one.log.join()).toMatch(/lotwright\.findings\.lime-dust must be one of/);
    await one.stop();
  });

  it('are those of the documents that are open, where these say something else than the disk', async () => {
    const { client: one, all } = client();
    await wait(300);
    await one.start();
    one.open(FRUIT, (all.get(FRUIT) ?? '').replace('room: R2', 'room: R9'));
    await one.until('the unknown room', () => one.codes(FRUIT).includes('unknown-reference'));
    await one.stop();
  });

  it('are read again once nothing presses: a file may have changed before anybody watched it', async () => {
    const { client: one, all } = client();
    await wait(300);
    all.set(FRUIT, (all.get(FRUIT) ?? '').replace('room: R2', 'room: R9'));
    await one.start();
    await one.until('the unknown room', () => one.codes(FRUIT).includes('unknown-reference'));
    await one.stop();
  });

  it('are told of no more once the client has asked for the end, whatever is read after it', async () => {
    const { client: one, all, read } = client();
    await wait(300);
    await one.start();
    await one.until('the findings', () => one.computed.length > 0);
    all.set(FRUIT, (all.get(FRUIT) ?? '').replace('room: R2', 'room: R9'));
    await one.connection.sendRequest('shutdown');
    const told = [one.computed.length, one.published.length];
    await one.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: FRUIT, type: 2 }],
    });
    await wait(2500);
    expect([one.computed.length, one.published.length]).toEqual(told);
    expect(read).toHaveLength(sample.length);
    one.dispose();
  });

  it('are taken from a first message of that kind, and from no other', () => {
    expect(aheadIn({ lotwrightAhead: said })).toEqual(said);
    for (const other of [undefined, null, 1, {}, { lotwrightAhead: null }, { jsonrpc: '2.0', id: 0 }])
      expect(aheadIn(other)).toBeUndefined();
  });
});
