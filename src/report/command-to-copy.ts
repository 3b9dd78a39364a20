import { PAGE_WIDTH } from './table';

/** Words that a shell takes as they are. */
const PLAIN = /^[\p{L}\w./\\:~@%+,=-]+$/u;

/**
 * A command of the tool as it can be copied: with the plan's folder as it was typed, which is left out where none was. A
 * folder whose name a shell would take apart is quoted.
 */
export function commandToCopy(command: string, folder: string | undefined, options = ''): string {
  const shown = folder === undefined || PLAIN.test(folder) ? folder : quoted(folder);
  return ['lotwright', command, shown, options].filter((word) => word !== undefined && word !== '').join(' ');
}

/** A text whose commands in backticks name the plan's folder as it was typed, before their options: they can be copied too. */
export function withFolderTyped(text: string, folder: string | undefined): string {
  if (folder === undefined) return text;
  return text.replace(
    /`lotwright ([a-z-]+(?: [^-`\s][^`\s]*)*)((?: [^`]*)?)`/g,
    (_, command: string, options: string) => `\`${commandToCopy(command, folder, options.trim())}\``,
  );
}

/** `Each in full: lotwright explain Gala`: on a line of its own where that is too long for one, never broken within. */
export function commandLines(says: string, command: string): string[] {
  const line = `${says}: ${command}`;
  return line.length <= PAGE_WIDTH ? [line] : [`${says}:`, `  ${command}`];
}

function quoted(word: string): string {
  return /["$`!]/.test(word) ? `'${word.replaceAll("'", String.raw`'\''`)}'` : `"${word}"`;
}
