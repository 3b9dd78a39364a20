import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Message } from 'vscode-languageserver';
import { folderOf } from './plan-roots';

/**
 * Addresses of files as a client writes them and as Node does. Editors escape different letters of one and the same
 * address (`(`, `+`, the colon behind a drive), and the server finds files on the disk by itself: so it knows each file by
 * Node's spelling, and a client hears of it by its own. A client whose spelling is Node's has its messages as they are.
 */
export class SpelledAddresses {
  /** The client's spelling of files and folders that it has named, by Node's, where the two differ. */
  private readonly spelled = new Map<string, string>();
  private isAsked = true;

  /** A message of the client with all addresses in Node's spelling; as it is where the client finds the files itself. */
  taken<M extends Message>(message: M): M {
    if (readsFiles(message)) this.isAsked = false;
    if (!this.isAsked) return message;
    return mapped(message, (text, key) => (isAddress(key) ? this.known(text) : text));
  }

  /** A message to the client with addresses in its own spelling. */
  given<M extends Message>(message: M): M {
    return this.spelled.size === 0
      ? message
      : mapped(message, (text, key) => (isAddress(key) ? this.spelling(text) : text));
  }

  private known(address: string): string {
    const known = inNodesSpelling(address);
    if (known !== address) this.learn(known, address);
    return known;
  }

  /** The address and the folders above it, as far as both have the same number of them. */
  private learn(known: string, address: string): void {
    let [ours, theirs] = [known, address];
    while (ours !== theirs && ours.length > 'file:///'.length && !this.spelled.has(ours)) {
      this.spelled.set(ours, theirs);
      [ours, theirs] = [folderOf(ours), folderOf(theirs)];
    }
  }

  private spelling(text: string): string {
    if (!text.startsWith('file:')) return text;
    for (let folder = text; folder.length > 'file:///'.length; folder = folderOf(folder)) {
      const spelled = this.spelled.get(folder);
      if (spelled !== undefined) return spelled + text.slice(folder.length);
    }
    return text;
  }
}

/** Whether it is the first message of a client that reads files for the server: both have its addresses then. */
function readsFiles(message: Message & { readonly method?: unknown; readonly params?: unknown }): boolean {
  if (message.method !== 'initialize') return false;
  const { initializationOptions: options } = (message.params ?? {}) as {
    readonly initializationOptions?: { readonly clientReadsFiles?: unknown } | null;
  };
  return options?.clientReadsFiles === true;
}

function inNodesSpelling(address: string): string {
  if (!address.startsWith('file:')) return address;
  try {
    const { href } = pathToFileURL(fileURLToPath(address));
    // A drive is the same whichever way its letter is written.
    return href.replace(/^file:\/\/\/[a-z]:/, (drive) => drive.toUpperCase().replace('FILE', 'file'));
  } catch {
    // A machine's name in it, or what is no path here: it stands as it is.
    return address;
  }
}

const ADDRESSES: ReadonlySet<string> = new Set(['uri', 'uris', 'target', 'root', 'folder']);

/** Whether a text is one by its name, or is a name itself; what stands in a document is none, whatever it begins with. */
function isAddress(key: string | undefined): boolean {
  return key === undefined || ADDRESSES.has(key) || key.endsWith('Uri');
}

/** A value with its texts, and the names in it that are addresses, changed; the very same where none is. */
function mapped<T>(value: T, change: (text: string, key: string | undefined) => string, key?: string): T {
  if (typeof value === 'string') return change(value, key) as T & string;
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const items = value.map((item) => mapped(item, change, key));
    return items.every((item, at) => item === value[at]) ? value : (items as T & unknown[]);
  }
  const pairs = Object.entries(value).map(([name, item]): [string, unknown] => {
    const other = name.startsWith('file:') ? change(name, undefined) : name;
    return [other, mapped(item, change, name)];
  });
  const isSame = pairs.every(([name, item]) => (value as Record<string, unknown>)[name] === item);
  return isSame ? value : (Object.fromEntries(pairs) as T & object);
}
