const vscode = require('vscode');
const { equal, extension, holds, open, revertAll } = require('./support.js');

describe('activation', () => {
  after(revertAll);

  it('happens in a workspace with plan files', async () => {
    holds(extension(), 'the extension is installed');
    const api = await extension().activate();
    holds(extension().isActive, 'the extension is active');
    equal(typeof api.shownTimeline, 'function');
  });

  it('registers every command of the manifest', async () => {
    await extension().activate();
    const registered = new Set(await vscode.commands.getCommands(true));
    const missing = extension()
      .packageJSON.contributes.commands.map(({ command }) => command)
      .filter((command) => !registered.has(command));
    equal(missing, []);
  });

  it('plan files have a language of their own, other YAML files do not', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    equal(editor.document.languageId, 'lotplan');
    const languages = await vscode.languages.getLanguages();
    holds(languages.includes('lotplan'), 'the language is known');
  });

  it('works in a workspace that is not trusted, and says so', () => {
    equal(extension().packageJSON.capabilities.untrustedWorkspaces.supported, true);
  });
});
