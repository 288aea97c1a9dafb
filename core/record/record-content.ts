import type { StageId } from '../stages/stage.ts';
import type { RunPlot } from './run-plot.ts';

/** Paper that a record is laid out for. */
export type Paper = 'A4' | 'Letter';

/** A labelled line of text. */
export interface Fact {
  readonly label: string;
  readonly text: string;
}

/** One stage of a run as a line of its table. */
export interface StageRow {
  readonly number: number;
  readonly stage: StageId;
  readonly words: string;
  readonly from: string;
  readonly lasted: string;
  readonly meanAmps: string;
  readonly meanVolts: string;
  readonly sure: string;
  readonly reason: string;
}

/** A moment on a run, with the letter that it carries on the plot. */
export interface MarkRow {
  readonly letter: string;
  readonly at: string;
  readonly words: string;
  readonly text: string;
}

export interface RunSection {
  readonly title: string;
  readonly facts: readonly Fact[];
  /** What the plot shows, for somebody who cannot see it. */
  readonly sentence: string;
  /** Null when the run holds no reading of the current to draw. */
  readonly plot: RunPlot | null;
  readonly stages: readonly StageRow[];
  readonly marks: readonly MarkRow[];
  /** Set when the pretend bench made the run. */
  readonly pretend: boolean;
}

/** How a reading compares with what was expected of it. */
export type ReadingVerdict = 'as expected' | 'low' | 'high' | '–';

/** What was found at one moment. */
export interface FoundLine {
  readonly value: string;
  readonly verdict: ReadingVerdict;
  readonly at: string;
  readonly from: string;
}

/** One quantity at one place; newest first on each side. */
export interface ReadingPair {
  readonly place: string;
  readonly measured: string;
  readonly expected: string;
  readonly before: readonly FoundLine[];
  readonly since: readonly FoundLine[];
}

export interface ReadingPairs {
  /** Whether a part was changed: there is a before and a since. */
  readonly isChanged: boolean;
  readonly rows: readonly ReadingPair[];
}

/** A mark on a printed picture: shares of its width and height, a short tag, and its line below. */
export interface FigureMark {
  readonly kind: 'hot-spot' | 'point';
  readonly x: number;
  readonly y: number;
  readonly tag: string;
  readonly words: string;
}

/** A picture for paper; its bytes come from the ledger by its id. */
export interface PictureFigure {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  readonly alt: string;
  readonly head: string;
  readonly caption: string;
  readonly at: string;
  readonly tied: string;
  readonly marks: readonly FigureMark[];
}

/** The same before and after, or a picture by itself. */
export interface PictureGroup {
  readonly isPair: boolean;
  readonly figures: readonly PictureFigure[];
}

/** The first page, for the owner: it always fits. */
export interface CustomerPage {
  /** Whose board it is; '' = not told. Stands on this page and on no other. */
  readonly name: string;
  readonly sections: readonly { readonly title: string; readonly lines: readonly string[] }[];
  readonly figures: readonly PictureFigure[];
  /** True when a text was shortened to fit; it stands whole on the pages behind. */
  readonly isCut: boolean;
}

/** A hunt for a short: what was set, what was read at each point, what it showed. */
export interface HuntSection {
  readonly title: string;
  readonly facts: readonly Fact[];
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly notes: readonly string[];
}

/** A cause as it was weighed from earlier outcomes. */
export interface CauseRow {
  readonly cause: string;
  readonly likely: string;
  /** 95 %. */
  readonly between: string;
  readonly counted: string;
}

/** What was found at a point: empty words and a dash where nothing was read. */
export interface RailFound {
  readonly value: string;
  readonly verdict: string;
  readonly at: string;
}

/** One point of a rail, before parts were changed and since. */
export interface RailPointRow {
  /** Empty where the row above is of the same rail. */
  readonly rail: string;
  readonly measured: string;
  readonly before: RailFound;
  readonly since: RailFound;
  readonly isOddBefore: boolean;
  readonly isOddSince: boolean;
}

export interface RailSection {
  /** Whether a part was changed: there is a before and a since. */
  readonly isChanged: boolean;
  readonly rows: readonly RailPointRow[];
  /** The arithmetic behind odd verdicts, a sentence each. */
  readonly workings: readonly string[];
  readonly notes: readonly string[];
}

export interface PartRow {
  readonly action: 'lifted' | 'fitted';
  readonly designator: string;
  readonly what: string;
  readonly rail: string;
  readonly found: string;
  readonly from: string;
  readonly at: string;
}

export interface ChecklistRow {
  readonly title: string;
  readonly state: 'done' | 'skipped' | 'open';
  readonly at: string;
  /** Initials of who settled it; '' = nobody said. */
  readonly by: string;
  readonly readings: readonly string[];
  readonly reason: string;
  readonly caution: string;
  /** Its number among the record's cautions; null = none was shown. */
  readonly cautionNumber: number | null;
}

export interface ChecklistPhase {
  readonly phase: string;
  readonly rows: readonly ChecklistRow[];
}

/** The first run before repair against the last after it. */
export interface Comparison {
  readonly beforeTitle: string;
  readonly afterTitle: string;
  readonly rows: readonly {
    readonly label: string;
    readonly before: string;
    readonly after: string;
  }[];
}

export interface StageMeaning {
  readonly stage: StageId;
  readonly words: string;
  readonly meaning: string;
}

/**
 * Everything that a job record prints: text and plot paths only, every number already written
 * out. Crosses to the print page as it is; nothing in it is markup.
 */
export interface JobRecord {
  readonly paper: Paper;
  readonly title: string;
  readonly board: string;
  readonly serial: string;
  /** What the footer says beside the page number; built of our own words and numbers only. */
  readonly footer: string;
  readonly fileName: string;
  readonly printed: string;
  /** Said plainly on the first page when any run came from the pretend bench. */
  readonly pretend: string | null;
  /** The first page. */
  readonly customer: CustomerPage;
  readonly summary: readonly string[];
  readonly facts: readonly Fact[];
  readonly outcome: readonly Fact[];
  readonly comparison: Comparison | null;
  readonly runs: readonly RunSection[];
  /** Null when nothing was read on a rail of a known board. */
  readonly rails: RailSection | null;
  readonly readings: ReadingPairs;
  readonly parts: readonly PartRow[];
  /** Whether fitted parts are equals, what was not checked, and what stays off. */
  readonly partNotes: readonly string[];
  /** What earlier outcomes said of the job as it came in, with counts. */
  readonly evidence: readonly string[];
  readonly causes: readonly CauseRow[];
  readonly hunts: readonly HuntSection[];
  readonly pictures: readonly PictureGroup[];
  /** How its soak went, with numbers. */
  readonly soak: readonly string[];
  /** Every caution that was shown, once; steps name them by number. */
  readonly cautions: readonly string[];
  readonly checklist: readonly ChecklistPhase[];
  readonly stagesUsed: readonly StageMeaning[];
}
