import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { questions } from '../../src/report/assistant/questions';
import { readInput } from '../../src/report/assistant/read-input';
import { type AskAnswer, askRequest } from '../../src/server/protocol-ask';
import { root } from '../cli/in-process';
import { ROOT, TestClient } from '../server/client';

const { contributes } = JSON.parse(fs.readFileSync(path.join(root, 'package.json'), 'utf8'));

describe("the editor's tools for assistants", () => {
  it('are in the manifest as the list has them: names, inputs and what the assistant is told', () => {
    const declared = contributes.languageModelTools.map(
      ({ name, modelDescription, inputSchema }: Record<string, unknown>) => ({
        name,
        description: modelDescription,
        input: inputSchema,
      }),
    );
    expect(declared).toEqual(questions.map(({ name, description, input }) => ({ name, description, input })));
  });

  it('have names and texts that the editor takes', () => {
    for (const tool of contributes.languageModelTools) {
      expect(tool.name).toMatch(/^lotwright_[a-z_]+$/);
      expect(tool.toolReferenceName).toMatch(/^[a-zA-Z]+$/);
      expect(tool.displayName).toMatch(/^%.+%$/);
      expect(tool.userDescription).toMatch(/^%.+%$/);
    }
  });

  it('say in a sentence what is wrong with what they are given', () => {
    const input = (name: string) => {
      const found = questions.find((one) => one.name === name);
      if (!found) throw new Error(`no question ${name}`);
      return found.input;
    };
    expect(readInput(input('lotwright_rooms'), {})).toEqual({ value: { format: 'text' } });
    expect(readInput(input('lotwright_rooms'), undefined)).toEqual({ value: { format: 'text' } });
    expect(readInput(input('lotwright_rooms'), { format: 'xml' })).toEqual({
      wrong: '"format" must be one of text, json.',
    });
    expect(readInput(input('lotwright_rooms'), { colour: 'red' })).toHaveProperty('wrong');
    expect(readInput(input('lotwright_explain'), {})).toHaveProperty('wrong');
    expect(readInput(input('lotwright_explain'), { figure: 7 })).toHaveProperty('wrong');
    expect(readInput(input('lotwright_release'), { reasons: 'yes' })).toHaveProperty('wrong');
    expect(readInput(input('lotwright_what_if'), { changes: [], question: 'check' })).toHaveProperty('wrong');
    expect(
      readInput(input('lotwright_what_if'), { changes: [{ file: 'a', old: 'b' }], question: 'check' }),
    ).toEqual({ wrong: 'Each of "changes" lacks "new": Text to stand there instead.' });
  });
});

describe('the language server, asked for an assistant', () => {
  const folder = path.join(root, 'sample-plans/first-season');
  const files = new Map(
    fs
      .readdirSync(folder)
      .filter((name) => name.endsWith('.lotplan.yaml'))
      .map((name) => [`${ROOT}/${name}`, fs.readFileSync(path.join(folder, name), 'utf8')]),
  );

  it('answers from the text in the editor, with the caution, and hands out what is to be solved', async () => {
    const client = new TestClient(files);
    await client.start();
    const ask = async (name: string, input: unknown = {}, more: object = {}) =>
      client.connection.sendRequest<AskAnswer | null>(askRequest, { name, input, ...more });
    const windows = await ask('lotwright_windows');
    expect(windows).toMatchObject({ failed: false });
    expect(JSON.stringify(windows)).toMatch(/Sealed rooms kill/);
    const findings = await ask('lotwright_findings');
    expect(findings).toMatchObject({ failed: false });
    // In a finding that speaks of opening, or beside them all.
    expect(JSON.stringify(findings)).toMatch(/Sealed rooms kill/);
    expect(await ask('lotwright_explain', { figure: 'R2.free-gas-volume' })).toMatchObject({
      text: expect.stringContaining('free gas volume ='),
    });
    expect(
      await ask('lotwright_explain', { figure: 'lime-dust' }, { page: '# Lime dust, as its page says' }),
    ).toMatchObject({ text: expect.stringContaining('as its page says') });
    const change = {
      file: 'fruit.lotplan.yaml',
      old: 'lots: { G4: 78, G5: 81, G6: 76 }',
      new: 'lots: { G4: 78 }',
    };
    expect(await ask('lotwright_what_if', { changes: [change], question: 'rooms' })).toMatchObject({
      text: expect.stringMatching(/R2\s.*\b78\b/),
    });
    expect(await ask('lotwright_release')).toHaveProperty('problem.rooms');
    expect(await ask('lotwright_nothing')).toMatchObject({ failed: true });
    expect(await ask('lotwright_gas', { room: 'R99' })).toMatchObject({
      failed: true,
      text: expect.stringContaining('no room or fill called "R99"'),
    });
    await client.stop();
  });
});
