import type { PlanText } from '../model';
import type { TextView } from './text-view';

/** A file's text as it was handed in, put together only for whoever asks for all of it. */
export class ReadText implements PlanText {
  constructor(
    readonly path: string,
    readonly view: TextView,
    readonly lineStarts: readonly number[],
  ) {}

  get text(): string {
    return this.view.toString();
  }
}
