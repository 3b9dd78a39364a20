/** A name of more than this is cut where it is shown in a line with other words. UTF-16 code units. */
const MOST_OF_NAME = 80;

/**
 * A text as it is shown where there is little room: no more than `most` UTF-16 code units, the mark that tells of the rest
 * among them. It is cut between characters as people see them, so that a letter keeps its accents. For show only: what is
 * cut can no longer be told apart.
 */
export function shortened(text: string, most = MOST_OF_NAME): string {
  if (text.length <= most) return text;
  let end = 0;
  for (const { index, segment } of new Intl.Segmenter().segment(text.slice(0, 2 * most))) {
    if (index + segment.length > most - 1) break;
    end = index + segment.length;
  }
  return `${text.slice(0, end).trimEnd()}…`;
}

/** The same for each word of a sentence: names stand in it as they are written. */
export function withShortWords(sentence: string): string {
  return sentence.replace(LONG_WORDS, (word) => shortened(word));
}

const LONG_WORDS = new RegExp(`\\S{${MOST_OF_NAME + 1},}`, 'g');
