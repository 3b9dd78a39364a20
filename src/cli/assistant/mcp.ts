import { McpServer } from '@modelcontextprotocol/sdk/server/mcp.js';
import { caution } from '../../room/caution';
import type { Io } from '../io';
import { answer } from './answer';
import { tools } from './tools';

const INSTRUCTIONS = `Reads one storage lot plan of apples or pears and answers questions about it. It never writes.
${caution}`;

/** A server of the Model Context Protocol for the plan in a folder. The caller connects it to a transport. */
export function assistantServer(io: Io, folder: string): McpServer {
  const server = new McpServer({ name: 'lotwright', version: io.version }, { instructions: INSTRUCTIONS });
  for (const { name, title, description, input, asked } of tools) {
    const annotations = { readOnlyHint: true, openWorldHint: false };
    server.registerTool(name, { title, description, inputSchema: input, annotations }, async (given) => {
      const { text, failed } = await answer(io, folder, asked(given));
      return { content: [{ type: 'text', text }], isError: failed };
    });
  }
  return server;
}
