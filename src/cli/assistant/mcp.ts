import { Server } from '@modelcontextprotocol/sdk/server/index.js';
import { CallToolRequestSchema, ListToolsRequestSchema } from '@modelcontextprotocol/sdk/types.js';
import { questions } from '../../report/assistant/questions';
import { caution } from '../../room/caution';
import type { Io } from '../io';
import { answer } from './answer';

const INSTRUCTIONS = `Reads one storage lot plan of apples or pears and answers questions about it. It never writes.
${caution}`;

/** A server of the Model Context Protocol for the plan in a folder. The caller connects it to a transport. */
export function assistantServer(io: Io, folder: string): Server {
  const server = new Server(
    { name: 'lotwright', version: io.version },
    { instructions: INSTRUCTIONS, capabilities: { tools: {} } },
  );
  const annotations = { readOnlyHint: true, openWorldHint: false };
  const tools = questions.map(({ name, title, description, input }) => ({
    name,
    title,
    description,
    inputSchema: { ...input, properties: { ...input.properties }, required: [...input.required] },
    annotations,
  }));
  server.setRequestHandler(ListToolsRequestSchema, () => ({ tools }));
  server.setRequestHandler(CallToolRequestSchema, async ({ params }) => {
    const { text, failed, caution: besides } = await answer(io, folder, params.name, params.arguments);
    const parts = besides === undefined ? [text] : [text, besides];
    return { content: parts.map((part) => ({ type: 'text', text: part })), isError: failed };
  });
  return server;
}
