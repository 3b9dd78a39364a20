import type { FileSource } from './file-source';
import { type AddressedDisk, openingFiles } from './opening-files';
import type { FolderOnDisk } from './protocol';
import type { Ahead } from './protocol-ahead';
import type { Workspace } from './workspace';

/** Before its first request a client cannot be asked: what does not lie on the disk is read after it. */
const NOBODY: FileSource = {
  find: () => Promise.reject(new Error('there is nobody to ask yet')),
  read: () => Promise.reject(new Error('there is nobody to ask yet')),
  grown: () => Promise.reject(new Error('there is nobody to ask yet')),
};

/** Plans that are computed from what a client has said of its folders before its first request. */
export class OpeningAhead {
  private constructor(
    private readonly said: Ahead,
    private readonly isRead: Promise<boolean>,
  ) {}

  /** Reads the folders' files, then calls back; undefined where there is no disk to read them from. */
  static begun(
    said: Ahead,
    disk: AddressedDisk | undefined,
    workspace: Workspace,
    then: () => void,
  ): OpeningAhead | undefined {
    const files = openingFiles(NOBODY, disk, said.onDisk);
    if (!files) return undefined;
    const read = workspace.load(said.folders, files).then(then);
    return new OpeningAhead(
      said,
      read.then(
        () => true,
        () => false,
      ),
    );
  }

  /** Whether all was read that the client names with its first request, as soon as it is known. */
  async isReadFor(folders: readonly string[], onDisk: readonly FolderOnDisk[] | undefined): Promise<boolean> {
    const { said } = this;
    const isSame = JSON.stringify([said.folders, said.onDisk]) === JSON.stringify([folders, onDisk]);
    return isSame && this.isRead;
  }
}
