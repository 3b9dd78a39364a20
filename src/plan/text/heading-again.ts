import type { Problem } from '../problem';
import type { Change } from './changed-lines';
import type { FileReading } from './kept-reading';
import { placedProblem } from './place-problem';
import { type Chunk, split } from './split';
import { indexAt } from './take-over';
import type { TextView } from './text-view';

/** A section's heading in place of the one that stood there, with what is wrong with it. */
export interface HeadingAgain {
  /** Of its chunk. */
  readonly index: number;
  readonly chunk: Chunk;
  readonly problems: readonly Problem[];
}

/**
 * What a change within the line of a section's heading leaves, as when its colon is lost and written again: the heading
 * and the first entry below it are split again, all else stays as it was. Undefined where that would not give what
 * splitting the whole text gives. The file must have no problems of its own but those of this heading.
 */
export function headingAgain(
  text: TextView,
  { file, normal, chunks, problems }: FileReading,
  change: Change,
): HeadingAgain | undefined {
  const index = indexAt(chunks, change.start);
  const [old, entry] = [chunks[index]?.chunk, chunks[index + 1]?.chunk];
  if (!old?.heading || old.parent !== 'file' || entry?.parent !== old.heading.name) return undefined;
  const { name, start: line } = old.heading;
  const isIndented = line > 0 && normal.charCodeAt(line - 1) !== 10;
  const lineEnds = normal.indexOf('\n', line);
  if (isIndented || change.start < line || change.oldEnd > lineEnds) return undefined;
  if (problems.some(({ at }) => at.start < line || at.end > lineEnds)) return undefined;
  const by = change.newEnd - change.oldEnd;
  const again = split(file.path, text.slice(line, entry.end + by));
  const [heading, first] = again.chunks;
  if (again.chunks.length !== 2 || heading?.heading?.name !== name || heading.heading.start !== 0)
    return undefined;
  if (heading.end + line !== old.end + by || first?.parent !== entry.parent) return undefined;
  if (first.indent !== entry.indent || first.end + line !== entry.end + by) return undefined;
  const place = { file: file.path, offset: line };
  return {
    index,
    chunk: {
      ...old,
      end: old.end + by,
      heading: { name, start: line, end: line + heading.heading.end },
    },
    problems: again.problems.map((problem) => placedProblem(problem, place)),
  };
}
