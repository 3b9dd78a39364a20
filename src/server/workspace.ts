import type { TextView } from '../plan/text/text-view';
import type { FileSource } from './file-source';
import { folderOf, isPlanFile, plansOf } from './plan-roots';
import { isSameMap } from './same-map';

/** An open document: its text counts, not the file's. */
export interface OpenDocument {
  readonly text: TextView;
  readonly version: number;
}

type Readable = Pick<FileSource, 'find' | 'read'>;

/** The plan files of the workspace: those on disk, with open documents laid over them. */
export class Workspace {
  private readonly disk = new Map<string, string>();
  private readonly open = new Map<string, OpenDocument>();
  private folders: readonly string[] = [];
  private grouped: Map<string, string[]> | undefined;

  constructor(private readonly source: FileSource) {}

  /** Reads every plan file of the folders anew. Gives whether any is another than before. */
  async load(folders: readonly string[], source: Readable = this.source): Promise<boolean> {
    this.folders = folders;
    const found = (await Promise.all(folders.map((folder) => source.find(folder)))).flat();
    const outside = [...this.open.keys()].filter((uri) => !this.inFolders(uri));
    for (const folder of new Set(outside.filter(isPlanFile).map(folderOf)))
      found.push(...(await source.find(folder)));
    const uris = [...new Set(found)];
    const texts = await source.read(uris);
    const before = new Map(this.disk);
    this.disk.clear();
    uris.forEach((uri, at) => {
      this.keep(uri, texts[at] ?? null);
    });
    this.grouped = undefined;
    return !isSameMap(before, this.disk);
  }

  /** Reads files anew; those that cannot be read any more are forgotten. */
  async reread(uris: readonly string[]): Promise<void> {
    const wanted = uris.filter((uri) => isPlanFile(uri) && this.isOfInterest(uri));
    if (wanted.length === 0) return;
    // A folder that comes all at once: a watcher need not tell of all of its files.
    const folders = new Set(wanted.map(folderOf).filter((folder) => !this.hasFilesBelow(folder)));
    const beside = (await Promise.all([...folders].map((folder) => this.source.find(folder)))).flat();
    const all = [...new Set([...wanted, ...beside])];
    const texts = await this.source.read(all);
    all.forEach((uri, at) => {
      this.keep(uri, texts[at] ?? null);
    });
  }

  /**
   * A document was opened or edited. `isNew` when nobody has told of its file yet: then its neighbours may be unknown
   * too. `isSame` when it says what was known of it: a file is opened as it is on the disk, or its document has another
   * version and the same text.
   */
  edit(uri: string, document: OpenDocument): { readonly isNew: boolean; readonly isSame: boolean } {
    const open = this.open.get(uri);
    const before = this.text(uri);
    this.open.set(uri, document);
    if (before === undefined) this.grouped = undefined;
    return {
      isNew: before === undefined && isPlanFile(uri),
      isSame: open ? open.text === document.text : before?.toString() === document.text.toString(),
    };
  }

  close(uri: string): void {
    this.open.delete(uri);
    for (const other of this.disk.keys())
      if (folderOf(other) === folderOf(uri) && !this.isOfInterest(other)) this.disk.delete(other);
    this.grouped = undefined;
  }

  /** Whether plan files are known below the address: then it was a folder. */
  hasFilesBelow(uri: string): boolean {
    return [...this.disk.keys()].some((file) => file.startsWith(`${uri}/`));
  }

  /** Whether it lies in the workspace. */
  inFolders(uri: string): boolean {
    return this.folders.some((folder) => uri.startsWith(folder.endsWith('/') ? folder : `${folder}/`));
  }

  text(uri: string): TextView | undefined {
    return this.open.get(uri)?.text ?? this.disk.get(uri);
  }

  version(uri: string): number | undefined {
    return this.open.get(uri)?.version;
  }

  /** Files by the address of their plan's folder. */
  plans(): ReadonlyMap<string, readonly string[]> {
    this.grouped ??= plansOf([...this.disk.keys(), ...this.open.keys()], this.folders);
    return this.grouped;
  }

  private keep(uri: string, text: string | null): void {
    if (this.disk.has(uri) !== (text !== null)) this.grouped = undefined;
    if (text === null) this.disk.delete(uri);
    else this.disk.set(uri, text);
  }

  /** Outside the workspace a file is of interest only while a document beside it is open. */
  private isOfInterest(uri: string): boolean {
    return this.inFolders(uri) || [...this.open.keys()].some((other) => folderOf(other) === folderOf(uri));
  }
}
