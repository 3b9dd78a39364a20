import { StdioServerTransport } from '@modelcontextprotocol/sdk/server/stdio.js';
import { nodeIo } from '../node-io';
import { assistantServer } from './mcp';

// node dist/mcp.cjs <plan folder>: speaks the Model Context Protocol on its standard streams.
const [folder = '.'] = process.argv.slice(2);
void assistantServer(nodeIo(__dirname), folder).connect(new StdioServerTransport());
