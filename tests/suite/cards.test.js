const vscode = require('vscode');
const { equal, extension, holds, open, positionOf, replace, revertAll, until } = require('./support.js');

describe('cards and comparison', () => {
  let api;
  before(async () => {
    api = await extension().activate();
    await open('first-season', 'fruit.lotplan.yaml');
    await vscode.commands.executeCommand('lotwright.openTimeline');
    await until('the rows', () => row());
  });
  after(async () => {
    await vscode.commands.executeCommand('lotwright.compareWith', 'nothing');
    await revertAll();
  });

  const row = () => api.shownTimeline()?.rows.find(({ key }) => key === 'R2-gala');

  it('shows the card of the room at the caret', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const at = positionOf(editor.document, '  G4:', 3);
    editor.selection = new vscode.Selection(at, at);
    await vscode.commands.executeCommand('lotwright.showRoomCard');
    const card = await until('the card', () => api.shownCard()?.key === 'R2-gala' && api.shownCard());
    equal(
      card.charts.map(({ id }) => id),
      ['gas', 'temperature', 'cooling', 'weight'],
    );
    holds(card.caution.includes('calibrated instrument'), 'the caution is there');
  });

  it('marks the row in whose text the caret stands', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const caretAt = (text) => {
      const at = positionOf(editor.document, text, 3);
      editor.selection = new vscode.Selection(at, at);
    };
    caretAt('  R3-golden:');
    await until('the row of the fill', () => api.caretRow() === 'R3-golden');
    caretAt('  G4:');
    await until('the row of the lot', () => api.caretRow() === 'R2-gala');
    caretAt('regimes:');
    await until('no row', () => api.caretRow() === undefined);
  });

  it('keeps the card in step with the text', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    const days = api.shownCard().days.length;
    await replace(editor, 'open: 2027-W01', 'open: 2027-W03');
    await until('two weeks more', () => api.shownCard()?.days.length === days + 14);
    await replace(editor, 'open: 2027-W03', 'open: 2027-W01');
    await until('as it was', () => api.shownCard()?.days.length === days);
  });

  it('shows the card of the season', async () => {
    await vscode.commands.executeCommand('lotwright.showSeasonCard');
    const card = await until('the card', () => api.shownCard()?.gauges && api.shownCard());
    equal(card.gauges[0].text, '4 of 4');
  });

  it('holds the plan against the committed text, where the editor has Git', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    await replace(editor, 'open: 2027-W01', 'open: 2027-W04');
    await until('the new pin', () => api.shownTimeline().weeks[row()?.opens?.week] === '2027-W04');
    await vscode.commands.executeCommand('lotwright.compareWith', 'committed');
    if (vscode.extensions.getExtension('vscode.git')) {
      await until('the committed week', () => api.shownTimeline().weeks[row()?.other?.opens] === '2027-W01');
      holds(api.shownTimeline().against.note.startsWith('Against the last committed text: '), 'it is told');
    } else equal(api.shownTimeline().against, undefined);
    await replace(editor, 'open: 2027-W04', 'open: 2027-W01');
    await vscode.commands.executeCommand('lotwright.compareWith', 'nothing');
    await until('the plan alone', () => api.shownTimeline().against === undefined);
  });

  it('tells what the change does, where the editor has Git', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    await replace(editor, 'open: 2027-W01', 'open: 2027-W04');
    await until('the new pin', () => api.shownTimeline().weeks[row()?.opens?.week] === '2027-W04');
    const told = await vscode.commands.executeCommand('lotwright.tellChange', 'committed');
    if (vscode.extensions.getExtension('vscode.git')) {
      equal(told.changes, 1);
      holds(told.markdown.includes('2027-W04'), 'the page names the week');
      holds(told.headline.length > 0 && told.consequences.length > 0, 'what follows is told');
    } else equal(told, undefined);
    await replace(editor, 'open: 2027-W04', 'open: 2027-W01');
    await until('as it was', () => api.shownTimeline().weeks[row()?.opens?.week] === '2027-W01');
  });

  it('holds unsaved edits against the saved text', async () => {
    const editor = await open('first-season', 'fruit.lotplan.yaml');
    await replace(editor, 'open: 2027-W01', 'open: 2027-W03');
    await until('the new pin', () => api.shownTimeline().weeks[row()?.opens?.week] === '2027-W03');
    await vscode.commands.executeCommand('lotwright.compareWith', 'saved');
    await until('the saved week', () => api.shownTimeline().weeks[row()?.other?.opens] === '2027-W01');
    holds(api.shownTimeline().against.note.startsWith('Against the last saved text: '), 'it is told');
    await replace(editor, 'open: 2027-W03', 'open: 2027-W01');
    await vscode.commands.executeCommand('lotwright.compareWith', 'nothing');
    await until('the plan alone', () => api.shownTimeline().against === undefined);
  });
});
