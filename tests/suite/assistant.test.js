const vscode = require('vscode');
const { equal, extension, holds, open, revertAll } = require('./support.js');

// Editors without assistants have no such interface: there the extension has to run all the same.
const has = typeof vscode.lm?.registerTool === 'function' && typeof vscode.lm?.invokeTool === 'function';

describe('questions of an assistant', () => {
  if (has) withAssistants();
  else
    it('are not there where the editor has no assistants, and the extension runs', async () => {
      await extension().activate();
      holds(extension().isActive, 'the extension is not active');
      equal(vscode.lm?.tools?.length ?? 0, 0);
    });
});

function withAssistants() {
  const declared = () => extension().packageJSON.contributes.languageModelTools.map(({ name }) => name);

  before(async () => {
    await extension().activate();
    await open('first-season', 'fruit.lotplan.yaml');
  });
  after(revertAll);

  const ask = async (name, input = {}) => {
    const { content } = await vscode.lm.invokeTool(
      name,
      { input, toolInvocationToken: undefined },
      new vscode.CancellationTokenSource().token,
    );
    return content.map(({ value }) => value).join('\n');
  };

  it('every tool of the manifest is there', () => {
    const known = vscode.lm.tools.map(({ name }) => name);
    equal(
      declared().filter((name) => !known.includes(name)),
      [],
    );
  });

  it('windows are told with the caution', async () => {
    const text = await ask('lotwright_windows');
    holds(text.includes('R2'), text.slice(0, 500));
    holds(text.includes('Sealed rooms kill'), text.slice(-500));
  });

  it('a figure is explained, and a change is tried and not written', async () => {
    holds((await ask('lotwright_explain', { figure: 'R2.free-gas-volume' })).includes('free gas volume ='));
    const changes = [
      { file: 'fruit.lotplan.yaml', old: 'lots: { G4: 78, G5: 81, G6: 76 }', new: 'lots: { G4: 78 }' },
    ];
    const text = await ask('lotwright_what_if', { changes, question: 'rooms' });
    holds(/R2\s.*\b78\b/.test(text), text.slice(0, 500));
    holds(!vscode.window.activeTextEditor.document.isDirty, 'the text was changed');
  });

  it('a release schedule is found', async () => {
    const text = await ask('lotwright_release');
    holds(text.includes('release schedule for'), text.slice(0, 500));
  });
}
