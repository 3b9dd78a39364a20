/** Colours of text output. Everything must read as well without them. */
export interface Paint {
  readonly error: (text: string) => string;
  readonly warning: (text: string) => string;
  readonly notice: (text: string) => string;
  readonly good: (text: string) => string;
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
}

const same = (text: string): string => text;

export const noPaint: Paint = {
  error: same,
  warning: same,
  notice: same,
  good: same,
  bold: same,
  dim: same,
};
