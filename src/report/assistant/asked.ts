import { type QuestionName, questions, type Subject } from './questions';
import { readInput } from './read-input';

/** A change of a plan's text that is tried and never written. */
export interface Change {
  readonly file: string;
  /** Text that stands there exactly once. */
  readonly old: string;
  readonly new: string;
}

/** What is asked of a plan, and the changes to try first. */
export interface Asked {
  readonly subject: Subject | 'explain';
  readonly format: 'text' | 'json';
  readonly changes: readonly Change[];
  readonly room?: string;
  readonly reasons?: boolean;
  readonly figure?: string;
}

const SUBJECTS: Readonly<Record<Exclude<QuestionName, 'lotwright_what_if'>, Asked['subject']>> = {
  lotwright_findings: 'check',
  lotwright_rooms: 'rooms',
  lotwright_gas: 'gas',
  lotwright_windows: 'windows',
  lotwright_release: 'release',
  lotwright_explain: 'explain',
};

/** What an assistant asks by a question's name and input; else a sentence on what is wrong with it. */
export function askedBy(name: string, given: unknown): Asked | string {
  const question = questions.find((one) => one.name === name);
  if (!question)
    return `There is no question "${name}". There are: ${questions.map((one) => one.name).join(', ')}`;
  const read = readInput(question.input, given);
  if ('wrong' in read) return read.wrong;
  const { format, room, reasons, figure, changes, question: subject } = read.value;
  return {
    // The input's schema has let nothing else through.
    subject: question.name === 'lotwright_what_if' ? (subject as Subject) : SUBJECTS[question.name],
    format: format === 'json' ? 'json' : 'text',
    changes: (changes as readonly Change[] | undefined) ?? [],
    ...(typeof room === 'string' && { room }),
    ...(typeof reasons === 'boolean' && { reasons }),
    ...(typeof figure === 'string' && { figure }),
  };
}
