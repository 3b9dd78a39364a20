const vscode = require('vscode');
const { equal, extension, holds, open, positionOf, revertAll, sample, until } = require('./support.js');

describe('what records teach', () => {
  let api;
  let editor;
  before(async () => {
    api = await extension().activate();
    editor = await open('in-march', 'fruit.lotplan.yaml');
    await until('figures above the fills', async () => (await lenses()).length > 0, 40_000);
  });
  after(revertAll);

  const lenses = async () => {
    const all = await vscode.commands.executeCommand(
      'vscode.executeCodeLensProvider',
      editor.document.uri,
      500,
    );
    return (all ?? []).filter(({ command }) => command?.command === 'lotwright.takeLessons');
  };
  const undo = async (before) => {
    await vscode.window.showTextDocument(editor.document);
    await vscode.commands.executeCommand('undo');
    equal(editor.document.getText(), before, 'one undo takes it back:');
  };

  it('stands above the entries where it is other than the plan says', async () => {
    const found = await until('the line above the fill', async () =>
      (await lenses()).find(({ command }) => command.title.includes('respiration as a share')),
    );
    equal(found.range.start.line, positionOf(editor.document, '  R2-gala:').line);
    holds(/\(95 %: 1\.\d+ to 1\.\d+\), plan 1\.00/.test(found.command.title), found.command.title);
  });

  it('is taken in by the command, comments and all else as they were, and undone at once', async () => {
    const before = editor.document.getText();
    const taken = await vscode.commands.executeCommand('lotwright.takeLessons', {
      uri: editor.document.uri.toString(),
      take: ['respiration/R2-gala', 'firmness/G4'],
    });
    equal(taken, ['respiration/R2-gala', 'firmness/G4']);
    const text = editor.document.getText();
    holds(
      /respiration: \{ share: 1\.\d+, source: 'fitted to \d+ rests/.test(text),
      'the value with its source',
    );
    holds(text.includes('softening-spread:'), 'the course of firmness');
    const comments = (of) => of.match(/#.*$/gm);
    equal(comments(text), comments(before));
    holds(editor.document.isDirty, 'nothing is saved');
    await undo(before);
  });

  it('is offered over an entry as actions that write the same', async () => {
    const before = editor.document.getText();
    const at = positionOf(editor.document, '  R2-gala:', 4);
    const range = new vscode.Range(at, at);
    const action = await until('the action', async () => {
      const all = await vscode.commands.executeCommand(
        'vscode.executeCodeActionProvider',
        editor.document.uri,
        range,
      );
      return (all ?? []).find(({ title }) => title.startsWith('Take it in · Readings say: respiration'));
    });
    await vscode.workspace.applyEdit(action.edit);
    holds(editor.document.getText().includes('respiration: { share: 1.'), 'it stands in the text');
    await undo(before);
  });

  it("is on the room's card with what was read, the curve and its limits", async () => {
    await vscode.commands.executeCommand('lotwright.openTimeline');
    await until('the rows', () => api.shownTimeline()?.rows.find(({ key }) => key === 'R2-gala'));
    await vscode.window.showTextDocument(editor.document);
    const at = positionOf(editor.document, '  R2-gala:', 4);
    editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand('lotwright.showRoomCard');
    // A card that was open before may still tell of the text with the lesson taken in.
    const lesson = await until('the lesson', () =>
      api.shownLessons().find(({ id, differs }) => id === 'respiration/R2-gala' && differs),
    );
    equal(lesson.written, false);
    const [picture] = lesson.pictures;
    holds(picture.points.length > 3, 'stretches of the record');
    for (const { seen, low, high } of picture.points) holds(seen !== null && low < high, 'seen and limits');
  });
});

describe('a write of the command line that ended half way', () => {
  const file = (name) => sample('first-season', name);
  const textOf = async (uri) => new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  const write = (uri, text) => vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  const [fruit, orrowby] = ['fruit.lotplan.yaml', 'orrowby.lotplan.yaml'].map(file);
  const journal = file('.lotwright-writing.json');
  let texts;
  before(async () => {
    texts = [await textOf(fruit), await textOf(orrowby)];
  });
  after(async () => {
    await write(fruit, texts[0]);
    await write(orrowby, texts[1]);
    await vscode.workspace.fs.delete(journal).then(undefined, () => {});
  });
  const leave = async (now) => {
    const kept = (name, before) => ({ file: `/elsewhere/${name}`, before, after: `${before}# after\n` });
    const files = [kept('fruit.lotplan.yaml', texts[0]), kept('orrowby.lotplan.yaml', texts[1])];
    await write(journal, JSON.stringify({ files }));
    await write(fruit, now);
  };

  it('is undone: every file is as it was before', async () => {
    const api = await extension().activate();
    await leave(`${texts[0]}# after\n`);
    const undone = await until('the journal', async () => {
      const all = await api.undoBrokenWrites();
      return all.length > 0 && all;
    });
    equal(undone, [{ putBack: [fruit.toString()], changedSince: [] }]);
    equal([await textOf(fruit), await textOf(orrowby)], texts);
    equal(await api.undoBrokenWrites(), []);
  });

  it('is left alone where somebody has changed a file since', async () => {
    const api = await extension().activate();
    await leave('lotwright: 1 # mine\n');
    const undone = await until('the journal', async () => {
      const all = await api.undoBrokenWrites();
      return all.length > 0 && all;
    });
    equal(undone, [{ putBack: [], changedSince: [fruit.toString()] }]);
    equal(await textOf(fruit), 'lotwright: 1 # mine\n');
  });
});
