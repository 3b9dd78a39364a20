/**
 * What has a meaning in the Markdown that hovers are written in: code in backticks, a sign behind a backslash, stars of
 * emphasis (a star between spaces is one of a sum), a link, a line between two parts, and the two spaces that keep a line's end.
 */
const MARKS =
  /(?<!`)(`+)(?!`)([\s\S]*?)(?<!`)\1(?!`)|\\([\\`*_{}[\]<>#|])|(?<!\s)\*+|\*+(?!\s)|\[((?:\\.|[^[\]\\])*)\]\([^()\s]*\)|\n\n---(?=\n\n)| +$/gm;

/** The tool's own Markdown as plain text: the same words in the same lines, without its marks. */
export function plainText(markdown: string): string {
  return markdown.replace(
    MARKS,
    (_, _ticks: string | undefined, code?: string, escaped?: string, label?: string) =>
      code ?? escaped ?? (label === undefined ? '' : plainText(label)),
  );
}
