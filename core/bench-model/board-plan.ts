import type { ShelfBoard } from './shelf-board.ts';

/** A net of the board: its capacitance, its resistance to ground when nothing runs, its diode reading. */
export interface NetPlan {
  readonly name: string;
  readonly farads: number;
  readonly offOhms: number;
  readonly diodeV: number;
  /** Nominal volts when the net is a rail that can be up; left out for nets between parts. */
  readonly railV?: number;
  /** Volts that it holds when the board is put on: a cell is a net of very many farads. */
  readonly startV?: number;
}

/** A path of low resistance between two nets: a fuse, a sense resistor, a coil. */
export interface LinkPlan {
  readonly part: string;
  readonly from: string;
  readonly to: string;
  readonly ohms: number;
  /** A fuse melts when its excess over `ratedA` reaches `meltA2s` ampere squared seconds. */
  readonly fuse?: { readonly ratedA: number; readonly meltA2s: number };
}

/** A converter, averaged over its switching periods. */
export interface ConverterPlan {
  readonly part: string;
  /** `buck` conserves power, `linear` current; `switch` passes its input through. */
  readonly kind: 'buck' | 'linear' | 'switch';
  readonly from: string;
  readonly to: string;
  readonly setV: number;
  readonly limitA: number;
  /** Limit while its output is below half of `setV`; between half and 0.7 it rises to `limitA`. */
  readonly lowLimitA?: number;
  readonly softStartS: number;
  /** From enabled and fed to the start of the ramp. */
  readonly startDelayS: number;
  readonly efficiency: number;
  readonly idleW: number;
  /** Series loss: adds `lossOhms * I^2` to the input power. */
  readonly lossOhms: number;
  readonly starts: { readonly aboveV: number; readonly stopsBelowV: number };
  /** In limit for `tripS` it stops and tries again after `retryS`; left out = it holds its limit. */
  readonly hiccup?: { readonly tripS: number; readonly retryS: number };
  /** Enabled as soon as it is fed; otherwise the sequence enables it. */
  readonly alwaysOn?: boolean;
}

/** A load: its current at nominal volts, fading to nothing below `fullAboveV`. */
export interface LoadPlan {
  readonly name: string;
  readonly net: string;
  readonly fullAboveV: number;
  /** Current before the sequence says otherwise. */
  readonly amps: number;
}

/** What the board does when something it waits for does not come. */
export type OrElse = 'hold' | 'restart' | 'off';

/** One step of the board's own start-up sequence. */
export type SequenceStep =
  | { readonly do: 'wait'; readonly s: number }
  | { readonly do: 'await-wake' }
  | { readonly do: 'enable'; readonly converter: string }
  | {
      readonly do: 'await-good';
      readonly converter: string;
      readonly withinS: number;
      readonly orElse: OrElse;
    }
  /** Reads something that works only while `part` is sound. */
  | { readonly do: 'verify'; readonly part: string; readonly orElse: OrElse }
  | { readonly do: 'load'; readonly load: string; readonly amps: number }
  /** A load that moves with work: a new level in `fromA..toA` after each dwell. */
  | {
      readonly do: 'busy';
      readonly load: string;
      readonly fromA: number;
      readonly toA: number;
      readonly dwellS: readonly [least: number, most: number];
    };

/** The start-up sequence and what keeps its controller alive. */
export interface SequencePlan {
  /** The controller runs while this converter's output is good. */
  readonly poweredBy: string;
  /** Losing one of these once it was good starts the sequence again. */
  readonly watches: readonly string[];
  readonly restartAfterS: number;
  readonly steps: readonly SequenceStep[];
}

/** What is wrong with a board, and the part that mends it when replaced. */
export type BoardFault =
  | { readonly kind: 'short'; readonly part: string; readonly net: string; readonly ohms: number }
  /** A leak whose conductance follows its warmth from `coldOhms` to `hotOhms` with `warmS`. */
  | {
      readonly kind: 'warming-leak';
      readonly part: string;
      readonly net: string;
      readonly coldOhms: number;
      readonly hotOhms: number;
      readonly warmS: number;
    }
  | { readonly kind: 'no-enable'; readonly part: string; readonly converter: string }
  | { readonly kind: 'dead-converter'; readonly part: string; readonly converter: string }
  | { readonly kind: 'open-link'; readonly part: string }
  | { readonly kind: 'fails-check'; readonly part: string };

/** Everything that the model needs of one board. */
export interface BoardPlan {
  readonly shelf: ShelfBoard;
  /** The net that the supply's leads are clipped to. */
  readonly inputNet: string;
  readonly nets: readonly NetPlan[];
  readonly links: readonly LinkPlan[];
  readonly converters: readonly ConverterPlan[];
  readonly loads: readonly LoadPlan[];
  readonly sequence: SequencePlan;
  readonly faults: readonly BoardFault[];
  /** Further places to touch, and the net that they are on. */
  readonly touchPoints: Readonly<Record<string, string>>;
}
