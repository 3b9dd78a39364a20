/** Text that Markdown would read as marks of its own, kept as it is; line ends as spaces. */
export function inMarkdown(text: string): string {
  return text.replace(/[\\`*_[\]<>|#&~]/g, '\\$&').replace(/\s*[\r\n]+\s*/g, ' ');
}
