import type { FillProblem, FillResult } from '../fill/types';
import type { ReleaseProblem, ReleaseResult } from '../release/types';
import type { RoomCard, SeasonCard } from '../report/card-types';
import type { TimelineView } from '../report/timeline-types';

/**
 * What client and server say to each other beyond the Language Server Protocol. Plain data only: no plan, no figures.
 * Positions are the protocol's own: zero-based lines, UTF-16 code units.
 */
export const requests = {
  /** TimelineParams -> TimelineAnswer | null */
  timeline: 'lotwright/timeline',
  /** PlanParams -> ReleaseProblemAnswer | null */
  releaseProblem: 'lotwright/releaseProblem',
  /** ReleaseResultParams -> ReleaseResultAnswer */
  releaseResult: 'lotwright/releaseResult',
  /** ExplainParams -> ExplainAnswer | null */
  explain: 'lotwright/explain',
  /** AllowParams -> AllowAnswer | null */
  allow: 'lotwright/allow',
  /** PinsParams -> PinsAnswer | null */
  pins: 'lotwright/pins',
  /** PlanParams -> DrawsJobAnswer | null */
  drawsJob: 'lotwright/drawsJob',
  /** DrawsResultParams -> DrawsResultAnswer */
  drawsResult: 'lotwright/drawsResult',
  /** PlanParams -> DrawnSeasonsAnswer | null, where none were drawn */
  drawnSeasons: 'lotwright/drawnSeasons',
  /** FillProblemParams -> FillProblemAnswer | null */
  fillProblem: 'lotwright/fillProblem',
  /** FillResultParams -> FillResultAnswer */
  fillResult: 'lotwright/fillResult',
  /** FillPageParams -> FillPageAnswer | null, where no fills are kept */
  fillPage: 'lotwright/fillPage',
  /** AcceptFillsParams -> AcceptFillsAnswer | null */
  acceptFills: 'lotwright/acceptFills',
  /** OtherWeekParams -> OtherWeekAnswer | null */
  otherWeek: 'lotwright/otherWeek',
  /** OtherWeekParams -> AroundAnswer | null, where others cannot help */
  aroundWeek: 'lotwright/aroundWeek',
  /** OtherWeekParams -> PinsAnswer | null: the offer made last for that week, as pins */
  pinAround: 'lotwright/pinAround',
  /** RoomCardParams -> RoomCardAnswer | null */
  roomCard: 'lotwright/roomCard',
  /** PlaceParams -> the timeline row's key | null where the place is in no room's text */
  rowAt: 'lotwright/rowAt',
  /** PlanParams -> SeasonCardAnswer | null */
  seasonCard: 'lotwright/seasonCard',
  /** ExplainFigureParams -> FigureAnswer | null */
  explainFigure: 'lotwright/explainFigure',
  /** PlanParams -> PlanTextsAnswer | null */
  planTexts: 'lotwright/planTexts',
  /** CompareParams -> CompareAnswer | null */
  compare: 'lotwright/compare',
  /** NewPlanParams -> NewPlanAnswer | null where the day is none */
  newPlan: 'lotwright/newPlan',
  /** Server to client. FindFilesParams -> string[], the plan files' addresses */
  findFiles: 'lotwright/findFiles',
  /** Server to client. ReadFilesParams -> (string | null)[], texts in the order asked for */
  readFiles: 'lotwright/readFiles',
} as const;

export const notifications = {
  /** PlanComputed: a plan's findings, timeline and schedule are new. */
  timelineChanged: 'lotwright/timelineChanged',
} as const;

/** What the client tells the server when it starts it. Every part may be missing: other editors send none. */
export interface InitializationOptions {
  /** Folder of the findings' pages, `<code>.md` each; findings then link to them. */
  readonly pagesUri?: string;
  /** The client answers `findFiles` and `readFiles`, so that folders that are not on a disk work too. */
  readonly clientReadsFiles?: boolean;
  /** Folders on a disk that the server sees too: the first time it reads them itself, which asks nobody who is busy. */
  readonly onDisk?: readonly FolderOnDisk[];
  /** The section `lotwright` of the settings, for a client that has it at hand. */
  readonly settings?: unknown;
  /** The client has the commands below. */
  readonly clientCommands?: boolean;
}

/** A folder's address, and what the editor leaves out of it, as its setting `files.exclude` says. */
export interface FolderOnDisk {
  readonly folder: string;
  readonly exclude: Readonly<Record<string, unknown>>;
}

/** Commands of the client that the server's code actions call. */
export const clientCommands = {
  /** (AllowParams without reason) Asks for a reason and writes the comment. */
  allowFinding: 'lotwright.allowFinding',
  /** ({ uri, position }) Shows how the figures of the entry there came about. */
  explainAt: 'lotwright.explainAtCursor',
  /** ({ fill }) Shows the card of the timeline row with that key. */
  showRoomCard: 'lotwright.showRoomCard',
  /** (room: string) Fills the room as proposed. */
  acceptFill: 'lotwright.acceptRoomFill',
  /** (code: string) */
  showFindingPage: 'lotwright.showFindingPage',
  /** ({ uri, of }) Offers these lessons of the records to be taken in; all where none are named. */
  takeLessons: 'lotwright.takeLessons',
} as const;

/** Any document of the plan; left out, the plan that was computed last. */
export interface PlanParams {
  readonly uri?: string;
}

export type TimelineParams = PlanParams;

export interface TimelineAnswer {
  /** The plan folder's address. */
  readonly root: string;
  /** The address of each file that targets in the view name. */
  readonly files: Readonly<Record<string, string>>;
  readonly view: TimelineView;
  /** False while schedule and courses shown are those of an older text. */
  readonly isSettled: boolean;
}

export interface PlanComputed {
  readonly root: string;
  /** The plan's name for people: its season's, else its folder's. */
  readonly name: string;
  readonly revision: number;
  /** The versions of the open documents it was computed from, by address. */
  readonly versions: Readonly<Record<string, number>>;
  /** False while the schedule and the courses shown are those of an older text; tells again once they fit. */
  readonly isSettled: boolean;
  readonly findings: { readonly errors: number; readonly warnings: number; readonly notices: number };
  /** Rooms with a fill. */
  readonly rooms: number;
  /** It holds records, or names readings, that might teach something. */
  readonly hasRecords: boolean;
}

export interface ReleaseProblemAnswer {
  readonly root: string;
  readonly name: string;
  readonly problem: ReleaseProblem;
}

export interface ReleaseResultParams {
  readonly root: string;
  /** The problem that was solved, as it was handed out. */
  readonly problem: ReleaseProblem;
  readonly result: ReleaseResult;
}

export interface ReleaseResultAnswer {
  readonly accepted: boolean;
  /** For the planner: what the schedule is worth, or why it was not taken. */
  readonly message: string;
}

export interface ExplainParams {
  readonly uri: string;
  readonly position: { readonly line: number; readonly character: number };
}

export interface ExplainAnswer {
  readonly title: string;
  /** Markdown, its lines at most a hundred columns wide. */
  readonly markdown: string;
}

export interface AllowParams {
  readonly uri: string;
  readonly code: string;
  /** Where the finding begins. */
  readonly position: { readonly line: number; readonly character: number };
  readonly reason: string;
}

/** The insertion that allows the finding. */
export interface AllowAnswer {
  readonly position: { readonly line: number; readonly character: number };
  readonly newText: string;
}

/** The schedule's weeks as pins: of one fill, by name or by the place it stands at, else of all without a pin. */
export interface PinsParams extends PlanParams {
  readonly fill?: string;
  /** With `fill`: the week it is pinned to, `2027-W09`, in place of the schedule's; also where it has a pin already. */
  readonly week?: string;
  readonly position?: { readonly line: number; readonly character: number };
}

/** Why a fill's room opens in its week; with `week`, what opening it in that one would do. */
export interface OtherWeekParams extends PlanParams {
  readonly fill: string;
  readonly week?: string;
}

export interface OtherWeekAnswer {
  readonly text: string;
  /** The plan's own limits would be broken. */
  readonly breaks: boolean;
}

/** What other rooms could do around an opening that is held over a week. */
export interface AroundAnswer {
  readonly text: string;
  /** Rooms that would be moved beside it. */
  readonly rooms: number;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

/** A place in a document of the plan. */
export interface PlaceParams {
  readonly uri: string;
  readonly position: Position;
}

/** A room's card, by a timeline row's key, or by the place of its fill, its room or one of its lots. */
export interface RoomCardParams extends PlanParams {
  readonly key?: string;
  readonly position?: Position;
}

export interface RoomCardAnswer {
  /** The plan folder's address. */
  readonly root: string;
  readonly card: RoomCard;
  /** False while schedule and courses shown are those of an older text. */
  readonly isSettled: boolean;
}

export interface SeasonCardAnswer {
  readonly root: string;
  readonly card: SeasonCard;
  /** False while schedule and courses shown are those of an older text. */
  readonly isSettled: boolean;
}

/** A figure by the name that it can be asked for by: `R2.free-gas-volume`. */
export interface ExplainFigureParams extends PlanParams {
  readonly figure: string;
}

export interface FigureAnswer {
  readonly title: string;
  /** How it came about, as plain text in lines of at most a hundred columns. */
  readonly text: string;
}

/** Another state of the plan's files to hold the timeline against, by their paths; left out, against none any more. */
/** The files of a plan as the editor has them, unsaved edits included. */
export interface PlanTextsAnswer {
  readonly root: string;
  readonly name: string;
  readonly files: readonly { readonly path: string; readonly uri: string; readonly text: string }[];
  /** The plan's own, by identifier. */
  readonly scenarios: readonly string[];
}

export interface CompareParams extends PlanParams {
  readonly against?:
    | {
        readonly label: string;
        readonly files: readonly { readonly path: string; readonly text: string }[];
      }
    /** A scenario of the plan, by its identifier. */
    | { readonly scenario: string };
}

export interface CompareAnswer {
  readonly root: string;
  /** What differs, in a sentence. */
  readonly note: string;
}

export interface NewPlanParams {
  readonly name: string;
  readonly units: 'metric' | 'us';
  /** The first day of harvest, `2027-09-01`. */
  readonly harvest: string;
}

export interface NewPlanAnswer {
  readonly text: string;
}

export interface PinsAnswer {
  readonly name: string;
  /** One sentence on the schedule the weeks come from. */
  readonly schedule: string;
  /** The fill that was asked for; absent where all were, or where the place is in none. */
  readonly fill?: string;
  readonly pins: readonly {
    readonly fill: string;
    readonly room: string;
    /** As it is written: `2027-W09`. */
    readonly week: string;
    /** The week lies before today's. */
    readonly passed?: true;
    readonly uri: string;
    readonly edits: readonly PinEdit[];
  }[];
  /** Version of each open document that is edited: the edits hold for that text only. */
  readonly versions: Readonly<Record<string, number>>;
}

export interface PinEdit {
  readonly range: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
  readonly newText: string;
}

/** The lots and rooms for which fills are to be proposed. */
export interface FillProblemParams extends PlanParams {
  /** Fills of the plan with places left may take more bins. */
  readonly topUp?: boolean;
}

export interface FillProblemAnswer {
  readonly root: string;
  readonly name: string;
  readonly problem: FillProblem;
}

export interface FillResultParams {
  readonly root: string;
  readonly topUp?: boolean;
  /** The problem that was solved, as it was handed out. */
  readonly problem: FillProblem;
  readonly result: FillResult;
}

export interface FillResultAnswer {
  /** The proposal passed its check, and is for the plan as it is: the server keeps it. */
  readonly accepted: boolean;
  /** For the planner: what is proposed, or why it was not taken. */
  readonly message: string;
  /** The proposal as a page, Markdown; absent where it was not taken. */
  readonly page?: { readonly title: string; readonly markdown: string };
  readonly rooms: readonly string[];
}

/** The proposal's page with the rooms that the plan, as it is now, could still take. */
export interface FillPageParams {
  readonly root: string;
}

export interface FillPageAnswer {
  readonly title: string;
  readonly markdown: string;
}

/** The proposal's rooms as edits: one, by name or by the place it or one of its lots stands at, else all of them. */
export interface AcceptFillsParams extends PlanParams {
  readonly room?: string;
  readonly position?: { readonly line: number; readonly character: number };
}

export interface AcceptFillsAnswer {
  /** The plan folder's address. */
  readonly root: string;
  readonly name: string;
  /** Rooms of the proposal that the plan, as it is, could still take, in the order of their names. */
  readonly open: readonly { readonly room: string; readonly what: string }[];
  /** Rooms that the edits fill; empty where the one asked for is not of the proposal, or no longer possible. */
  readonly rooms: readonly string[];
  readonly edits: Readonly<Record<string, readonly PinEdit[]>>;
  /** Version of each open document that is edited: the edits hold for that text only. */
  readonly versions: Readonly<Record<string, number>>;
}

export interface FindFilesParams {
  /** A folder; plan files in it and below it are wanted. */
  readonly folder: string;
}

export interface ReadFilesParams {
  readonly uris: readonly string[];
}
