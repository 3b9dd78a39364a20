// What the editor's own commands give on a plan: rename, folding, figures above entries, hints, colours, layout.
const vscode = require('vscode');
const {
  codes,
  equal,
  extension,
  holds,
  open,
  positionOf,
  revertAll,
  sample,
  until,
} = require('./support.js');

const ask = (command, ...args) => vscode.commands.executeCommand(`vscode.${command}`, ...args);
const whole = (document) => new vscode.Range(0, 0, document.lineCount, 0);

describe('editing a plan', () => {
  let document;
  let uri;

  before(async () => {
    ({ document } = await open('first-season', 'fruit.lotplan.yaml'));
    uri = document.uri;
    await until('symbols', async () => (await ask('executeDocumentSymbolProvider', uri))?.length);
  });
  after(revertAll);

  it('renames a room in every file that names it, and undo takes it back', async () => {
    const at = positionOf(document, '    room: R2', 11);
    const edit = await ask('executeDocumentRenameProvider', uri, at, 'North 2');
    equal(edit.entries().length, 2, 'files changed');
    holds(await vscode.workspace.applyEdit(edit), 'the rename was refused');
    const buildings = await vscode.workspace.openTextDocument(sample('first-season', 'orrowby.lotplan.yaml'));
    holds(document.getText().includes('room: North 2'), 'the fill names the new room');
    holds(buildings.getText().includes('\n  North 2:\n'), 'the room has its new name');
    await until('no unknown room', () => !codes(uri).includes('unknown-reference'));
    const back = await ask('executeDocumentRenameProvider', uri, positionOf(document, 'North 2', 1), 'R2');
    holds(await vscode.workspace.applyEdit(back), 'the way back was refused');
  });

  it('refuses to rename what is built in', async () => {
    const at = positionOf(document, 'variety: Braeburn', 10);
    let refused = '';
    try {
      await ask('executeDocumentRenameProvider', uri, at, 'Brae');
    } catch (error) {
      refused = String(error);
    }
    holds(/No file of the plan defines/.test(refused), `no reason given: ${refused}`);
  });

  it('shows figures above fills, with a command that opens the card and changes nothing', async () => {
    const lens = await until('a figure above R2-gala', async () => {
      const lenses = await ask('executeCodeLensProvider', uri, 100);
      return lenses.find(({ command }) => /^235 bins · 70.5 t/.test(command?.title ?? ''));
    });
    const before = document.getText();
    equal(lens.command.command, 'lotwright.showRoomCard');
    await vscode.commands.executeCommand(lens.command.command, ...lens.command.arguments);
    await until('the card', () => extension().exports.shownCard()?.key === 'R2-gala');
    equal(document.getText(), before);
    await vscode.window.showTextDocument(document);
  });

  it('folds entries, hints at line ends, colours names, and leaves a tidy file as it is', async () => {
    const folds = await ask('executeFoldingRangeProvider', uri);
    holds(folds.length > 10, `${folds.length} folds`);
    const hints = await ask('executeInlayHintProvider', uri, whole(document));
    holds(
      hints.some(({ label }) => String(label).includes('°F')),
      'no hint in the other unit',
    );
    const tokens = await ask('provideDocumentSemanticTokens', uri);
    holds(tokens.data.length > 100, 'no names coloured');
    const edits = await ask('executeFormatDocumentProvider', uri, { tabSize: 2, insertSpaces: true });
    equal((edits ?? []).length, 0, 'layout edits');
  });

  it('finds entries of the whole plan by name', async () => {
    const found = await ask('executeWorkspaceSymbolProvider', 'R2-gala');
    holds(
      found.some(({ name }) => name === 'R2-gala'),
      'the fill is not found',
    );
  });

  it('writes a new plan that has no error', async () => {
    const [folder] = vscode.workspace.workspaceFolders;
    const base = folder.uri.toString();
    await vscode.commands.executeCommand('lotwright.newPlan', {
      folder: base,
      name: 'Try out 2027',
      units: 'metric',
      harvest: '2027-08-30',
    });
    const file = vscode.Uri.joinPath(folder.uri, 'try-out-2027', 'plan.lotplan.yaml');
    try {
      const shown = await until('the new plan', () => vscode.window.activeTextEditor?.document);
      equal(shown.uri.path, file.path, 'the document shown');
      await until('its symbols', async () => (await ask('executeDocumentSymbolProvider', file))?.length);
      equal(
        vscode.languages.getDiagnostics(file).filter(({ severity }) => severity === 0).length,
        0,
        'errors',
      );
    } finally {
      await vscode.workspace.fs.delete(vscode.Uri.joinPath(folder.uri, 'try-out-2027'), { recursive: true });
    }
  });

  it('offers a task that checks each plan, where there are processes', async () => {
    const tasks = await vscode.tasks.fetchTasks({ type: 'lotwright' });
    if (vscode.env.uiKind === vscode.UIKind.Web && tasks.length === 0) return;
    holds(
      tasks.some(({ name }) => name === 'check first-season'),
      tasks.map(({ name }) => name).join(', '),
    );
    // What it runs fails where the plan has errors, and prints what the problem matcher catches.
    const check = tasks.find(({ name }) => name === 'check with-mistakes');
    const { process: program, args, options } = check.execution;
    const { spawnSync } = process.getBuiltinModule('node:child_process');
    const env = { ...process.env, ...options.env };
    const { status, stdout } = spawnSync(program, args, { cwd: options.cwd, env, encoding: 'utf8' });
    equal(status, 1);
    const [{ name, pattern }] = extension().packageJSON.contributes.problemMatchers;
    equal(check.problemMatchers, [`$${name}`]);
    const caught = stdout.split('\n').map((line) => new RegExp(pattern.regexp).exec(line));
    const found = caught.filter(Boolean).map((match) => match[pattern.code]);
    holds(found.includes('unknown-reference') && found.length === caught.length - 2, stdout.slice(-500));
  }).timeout(60_000);
});
