const vscode = require('vscode');
const { equal, extension, holds, open, replace, revertAll, until } = require('./support.js');

describe('activation', () => {
  after(revertAll);

  it('happens in a workspace with plan files', async () => {
    holds(extension(), 'the extension is installed');
    const api = await extension().activate();
    holds(extension().isActive, 'the extension is active');
    equal(typeof api.shownTimeline, 'function');
  });

  it('tells how soon after it the findings of each plan were there', async () => {
    const { firstFindings } = await extension().activate();
    const folders = ['first-season', 'full-season', 'with-mistakes'];
    const soon = await until(
      'findings of all plans',
      () => {
        const found = Object.entries(firstFindings());
        return folders.every((folder) => found.some(([root]) => root.endsWith(folder))) && found;
      },
      60_000,
    );
    for (const [root, milliseconds] of soon) holds(milliseconds > 0, `${root}: ${milliseconds}`);
  }).timeout(70_000);

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

  it('says in the language status how many rooms the plan has and how it stands', async () => {
    const { planStatus } = await extension().activate();
    const { Error: bad, Information, Warning } = vscode.LanguageStatusSeverity;
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const said = await until('the plan', () => /: 4 rooms$/.test(planStatus().text) && planStatus());
    holds([Information, Warning].includes(said.severity), JSON.stringify(said));
    await replace(editor, 'room: R2', 'room: R9');
    await until('the error', () => planStatus().severity === bad);
    // While schedule and courses are found anew it says so, and then what there is.
    await until('what there is', () => /^errors [1-9]/.test(planStatus().detail), 60_000);
    await replace(editor, 'room: R9', 'room: R2');
    await until('no error', () => planStatus().severity !== bad);
    await until('settled', () => !planStatus().busy && /^errors 0/.test(planStatus().detail), 60_000);
  }).timeout(150_000);

  it('shows its log, and settings with a scope and a description each', async () => {
    await vscode.commands.executeCommand('lotwright.showLog');
    const [{ properties }] = extension().packageJSON.contributes.configuration;
    for (const [name, { scope, markdownDescription }] of Object.entries(properties)) {
      holds(['resource', 'window'].includes(scope), `${name} has the scope ${scope}`);
      holds(markdownDescription.length > 20 && !markdownDescription.startsWith('%'), `${name} tells nothing`);
      holds(vscode.workspace.getConfiguration().inspect(name).defaultValue !== undefined, name);
    }
  });

  it('works in a workspace that is not trusted, and says so', () => {
    equal(extension().packageJSON.capabilities.untrustedWorkspaces.supported, true);
  });
});
