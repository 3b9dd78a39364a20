import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { notifications, requests } from '../../src/server/protocol';

const root = path.resolve(import.meta.dirname, '../..');
const text = fs.readFileSync(path.join(root, 'package.json'), 'utf8');

const command = z.object({
  command: z.string(),
  title: z.string(),
  category: z.string(),
  enablement: z.string().optional(),
});
const menuItem = z.object({ command: z.string(), when: z.string().optional() });
const manifest = z
  .object({
    main: z.string(),
    browser: z.string(),
    icon: z.string(),
    engines: z.object({ vscode: z.string() }),
    devDependencies: z.record(z.string(), z.string()),
    activationEvents: z.array(z.string()),
    capabilities: z.object({
      untrustedWorkspaces: z.object({ supported: z.literal(true) }),
      virtualWorkspaces: z.literal(true),
    }),
    contributes: z.object({
      commands: z.array(command),
      menus: z.record(z.string(), z.array(menuItem)),
      keybindings: z.array(z.object({ command: z.string(), key: z.string(), mac: z.string() })).optional(),
      languages: z.array(
        z.object({
          id: z.string(),
          configuration: z.string(),
          icon: z.object({ light: z.string(), dark: z.string() }),
          filenamePatterns: z.array(z.string()),
        }),
      ),
      grammars: z.array(z.object({ language: z.string(), scopeName: z.string(), path: z.string() })),
      viewsContainers: z.record(z.string(), z.array(z.object({ id: z.string(), icon: z.string() }))),
      views: z.record(z.string(), z.array(z.object({ id: z.string(), icon: z.string(), type: z.string() }))),
    }),
  })
  .parse(JSON.parse(text));

/** The text of every source file of the extension, the panel's left out. */
const sources = fs
  .readdirSync(path.join(root, 'extension'))
  .filter((name) => name.endsWith('.ts'))
  .map((name) => fs.readFileSync(path.join(root, 'extension', name), 'utf8'))
  .join('\n');
const protocol = fs.readFileSync(path.join(root, 'src/server/protocol.ts'), 'utf8');
const { contributes } = manifest;

describe('the manifest', () => {
  it('registers every command it names, and names every command that is registered', () => {
    const named = contributes.commands.map((entry) => entry.command).sort();
    const used = new Set(
      [...`${sources}\n${protocol}`.matchAll(/'(lotwright\.[a-zA-Z]+)'/g)].map(([, id]) => id),
    );
    const notCommands = [
      'lotwright.plan',
      'lotwright.hasPlan',
      'lotwright.hasRecords',
      'lotwright.expectations',
      'lotwright.wideTimeline',
      ...Object.values(contributes.views)
        .flat()
        .map(({ id }) => id),
    ];
    expect([...used].filter((id) => !notCommands.includes(id ?? '')).sort()).toEqual(named);
  });

  it('offers what needs a plan only where there is one', () => {
    const anywhere = contributes.commands
      .filter(({ enablement }) => enablement === undefined)
      .map((entry) => entry.command.replace('lotwright.', ''));
    // What begins a plan, shows why there is none, or is offered in a plan's text alone.
    expect(anywhere.sort()).toEqual(
      ['allowFinding', 'copySample', 'newPlan', 'openTimeline', 'openWideTimeline', 'pinRoomWeek'].concat([
        'showFindingPage',
        'showLog',
        'showRoomCard',
      ]),
    );
    for (const { when } of contributes.menus['view/title'] ?? []) expect(when).toContain('lotwright.hasPlan');
    expect(sources).toContain("'lotwright.hasPlan'");
  });

  it('has menu entries for commands it has, and all commands under its own name', () => {
    const named = new Set(contributes.commands.map((entry) => entry.command));
    for (const items of Object.values(contributes.menus))
      for (const item of items) expect(named).toContain(item.command);
    for (const { category } of contributes.commands) expect(category).toBe('Lotwright');
  });

  it('names files that exist', () => {
    const { languages, grammars, viewsContainers, views } = contributes;
    const files = [
      manifest.icon,
      ...languages.flatMap(({ configuration, icon }) => [configuration, icon.light, icon.dark]),
      ...grammars.map((grammar) => grammar.path),
      ...Object.values(viewsContainers).flatMap((list) => list.map(({ icon }) => icon)),
      ...Object.values(views).flatMap((list) => list.map(({ icon }) => icon)),
    ];
    expect(files.length).toBeGreaterThan(6);
    for (const file of files) expect(fs.existsSync(path.join(root, file)), file).toBe(true);
  });

  it('starts from bundles that the build makes', () => {
    const build = fs.readFileSync(path.join(root, 'src/tools/build.mjs'), 'utf8');
    expect(build).toContain(`'${manifest.browser.slice(2)}'`);
    // Entries that are made together have the names of their files.
    expect(path.dirname(manifest.main)).toBe('./dist');
    expect(build).toMatch(new RegExp(`^  ${path.basename(manifest.main, '.cjs')}: 'extension/`, 'm'));
  });

  it('has an icon of 256 pixels', () => {
    const png = fs.readFileSync(path.join(root, manifest.icon));
    expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([256, 256]);
  });

  it('gives every view a container and a provider', () => {
    const containers = Object.values(contributes.viewsContainers).flatMap((list) => list.map(({ id }) => id));
    for (const [container, views] of Object.entries(contributes.views)) {
      expect(containers).toContain(container);
      for (const { id } of views) expect(sources).toContain(`'${id}'`);
    }
  });

  it('has a command key for the mac beside every control key', () => {
    for (const { key, mac } of contributes.keybindings ?? [])
      if (/ctrl/i.test(key)) expect(mac.toLowerCase()).toContain('cmd');
  });

  it('is written for the oldest VS Code it says it runs in', () => {
    expect(`^${manifest.devDependencies['@types/vscode']}`).toBe(manifest.engines.vscode);
  });

  it('wakes the extension for plan files only', () => {
    expect(manifest.activationEvents).toEqual([
      'workspaceContains:**/*.lotplan.yaml',
      // A timeline in the editor area that comes back with the window.
      'onWebviewPanel:lotwright.wideTimeline',
    ]);
    expect(contributes.languages.flatMap(({ filenamePatterns }) => filenamePatterns)).toEqual([
      '*.lotplan.yaml',
    ]);
  });

  it('has grammar and language files that are JSON', () => {
    for (const { path: file } of contributes.grammars)
      expect(JSON.parse(fs.readFileSync(path.join(root, file), 'utf8')).scopeName).toBe('source.lotplan');
  });
});

describe('the protocol', () => {
  it('has distinct names, all of them our own', () => {
    const names = [...Object.values(requests), ...Object.values(notifications)];
    expect(new Set(names).size).toBe(names.length);
    for (const name of names) expect(name).toMatch(/^lotwright\/[a-zA-Z]+$/);
  });
});
