/** What a person can say of a trace file when its headings do not. */
export interface TraceFileOptions {
  /** Columns by heading (any case, with or without unit) or by number from 1. */
  readonly time?: string | undefined;
  readonly volts?: string | undefined;
  readonly amps?: string | undefined;
  /** Units (`ms`, `mV`, `uA`), instead of what the headings say. */
  readonly timeUnit?: string | undefined;
  readonly voltsUnit?: string | undefined;
  readonly ampsUnit?: string | undefined;
  /** Samples a second, for files without times; a time column is then ignored. */
  readonly rateHz?: number | undefined;
}
