/**
 * Texts that a plan says over and over (a variety, a temperature, a key), each held once, with what was found out about
 * it. It remembers a pure function of the text, so it gives the same for every plan.
 */
export class KnownTexts<T> {
  private readonly known = new Map<string, T>();

  /** `most` texts are held; then it begins anew. */
  constructor(private readonly most: number) {}

  get(text: string): T | undefined {
    return this.known.get(text);
  }

  /** Remembers what was found out about a text that stands for itself: see `ownCopy`. */
  set(text: string, found: T): T {
    if (this.known.size >= this.most) this.known.clear();
    this.known.set(text, found);
    return found;
  }
}

/** The engine cuts a text this long from another one without copying it. */
const IS_CUT = 13;

/** A string of its own: one that was cut from a longer text would keep all of that in memory. */
export function ownCopy(text: string): string {
  return text.length < IS_CUT ? text : (JSON.parse(JSON.stringify(text)) as string);
}
