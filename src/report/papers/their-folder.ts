/** Paths from the folder that holds them all, so that a paper is the same from wherever it is made. */
export function fromTheirFolder(files: readonly string[]): string[] {
  const folders = files.map((file) => file.split('/').slice(0, -1));
  const [first = [], ...others] = folders;
  const differs = first.findIndex((name, at) => others.some((folder) => folder[at] !== name));
  const shared = differs < 0 ? first.length : differs;
  return files.map((file) => file.split('/').slice(shared).join('/'));
}
