import { describe, expect, it } from 'vitest';
import { SpelledAddresses } from '../../src/server/spelled-addresses';

const message = (method: string, params: unknown) => ({ jsonrpc: '2.0', method, params });
const opened = (uri: string, text = '') => message('textDocument/didOpen', { textDocument: { uri, text } });
const diagnostics = (uri: string) => message('textDocument/publishDiagnostics', { uri, diagnostics: [] });

describe('addresses of files', () => {
  it.each([
    [
      'brackets',
      'file:///farm/north%20%282%29/fruit.lotplan.yaml',
      'file:///farm/north%20(2)/fruit.lotplan.yaml',
    ],
    [
      'lower-case escapes',
      'file:///farm/%c3%a4pfel/fruit.lotplan.yaml',
      'file:///farm/%C3%A4pfel/fruit.lotplan.yaml',
    ],
    ['the machine itself', 'file://localhost/farm/fruit.lotplan.yaml', 'file:///farm/fruit.lotplan.yaml'],
    ['a step up', 'file:///farm/south/../north/a.lotplan.yaml', 'file:///farm/north/a.lotplan.yaml'],
  ])("are the server's within and the client's without: %s", (_what, theirs, ours) => {
    const addresses = new SpelledAddresses();
    expect(addresses.taken(opened(theirs))).toEqual(opened(ours));
    expect(addresses.given(diagnostics(ours))).toEqual(diagnostics(theirs));
  });

  it('of files beside are spelled as the client spells their folder, wherever they stand', () => {
    const addresses = new SpelledAddresses();
    addresses.taken(opened('file:///farm/a%2Bb/fruit.lotplan.yaml'));
    const edit = (folder: string) =>
      message('workspace/applyEdit', {
        edit: { changes: { [`${folder}/rooms.lotplan.yaml`]: [{ newText: 'file:///farm/a+bc is text' }] } },
        location: [{ uri: `${folder}/north/x.lotplan.yaml` }],
      });
    expect(addresses.given(edit('file:///farm/a+b'))).toEqual(edit('file:///farm/a%2Bb'));
    expect(addresses.given(diagnostics('file:///farm/a+bc/y.lotplan.yaml'))).toEqual(
      diagnostics('file:///farm/a+bc/y.lotplan.yaml'),
    );
  });

  it('leave messages as they are where both spell alike, and texts whatever they begin with', () => {
    const addresses = new SpelledAddresses();
    const plain = opened('file:///farm/fruit.lotplan.yaml', 'file:///farm/%28');
    expect(addresses.taken(plain)).toBe(plain);
    const other = message('x', { uri: 'untitled:Untitled-1', uris: ['memory:///a%28'] });
    expect(addresses.taken(other)).toBe(other);
    expect(addresses.given(plain)).toBe(plain);
  });

  it("are the client's throughout where it finds the files", () => {
    const addresses = new SpelledAddresses();
    addresses.taken(message('initialize', { initializationOptions: { clientReadsFiles: true } }));
    const theirs = opened('file:///farm/north%20%282%29/fruit.lotplan.yaml');
    expect(addresses.taken(theirs)).toBe(theirs);
    expect(addresses.given(theirs)).toBe(theirs);
  });
});
