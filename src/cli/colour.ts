import { createColors } from 'picocolors';
import { noPaint, type Paint } from '../report/paint';

/** Whether to colour: only for a terminal, and never where NO_COLOR is set to anything (https://no-color.org). */
export function wantsColour(env: Readonly<Record<string, string | undefined>>, isTerminal: boolean): boolean {
  return isTerminal && !env.NO_COLOR && env.TERM !== 'dumb';
}

export function paintFor(colour: boolean): Paint {
  if (!colour) return noPaint;
  const { red, yellow, cyan, green, bold, dim } = createColors(true);
  return { error: red, warning: yellow, notice: cyan, good: green, bold, dim };
}
