/** Something that the injected rail reaches, or may reach, with the volts it stands. */
export interface ReachedThing {
  readonly name: string;
  /** Lowest of its rating and its nominal, volts. */
  readonly standsV: number;
  /** How it is reached: `the rail itself`, `through L30`, `if the upper switch of CORE is shorted`. */
  readonly how: string;
}

/** Whether a rail is joined to another that it must not be: told by ohms between the two. */
export interface Joint {
  readonly rail: string;
  readonly other: string;
  readonly found: 'apart' | 'joined' | 'not-measured';
}

/** What injecting is planned from. */
export interface InjectionInput {
  readonly rail: string;
  readonly isCore: boolean;
  readonly reach: readonly ReachedThing[];
  readonly joints: readonly Joint[];
  /** Null = nobody said. Cells come off before anything is injected. */
  readonly cellAttached: boolean | null;
  /** Ohms of the rail to ground, leads taken off; null when not measured. */
  readonly ohmToGround: number | null;
  /** Ohms of the injecting leads, both together; null when not known. */
  readonly leadOhm: number | null;
  /** Most amps that something in the current's way stands (a fuse, a coil); null = nothing known. */
  readonly mostA: number | null;
  readonly supply: {
    readonly leastV: number;
    readonly mostV: number;
    readonly mostA: number;
  };
}

export type InjectionRefusal =
  | 'cell-attached'
  | 'cell-unknown'
  | 'joint-not-measured'
  | 'rails-joined'
  | 'nothing-known'
  | 'supply-cannot-go-low';

/** One step of the current limit: held for seconds at a time, looked at, then the next. */
export interface InjectionStep {
  readonly limitA: number;
  readonly holdS: number;
  /** Current expected to flow, and where its power goes; null without ohms. */
  readonly expectedA: number | null;
  readonly boardW: number | null;
  readonly leadsW: number | null;
}

export type InjectionPlan =
  | {
      readonly ok: false;
      readonly refusals: readonly {
        readonly why: InjectionRefusal;
        readonly text: string;
        readonly todo: string;
      }[];
      readonly cautions: readonly string[];
    }
  | {
      readonly ok: true;
      readonly startV: number;
      /** Never above this: the guard switches off there. */
      readonly ceilingV: number;
      readonly ceilingBecause: string;
      readonly steps: readonly InjectionStep[];
      /** How far one press of a person raises the volts. */
      readonly stepV: number;
      /** For the guard on the supply's readings. */
      readonly guard: { readonly mostV: number; readonly mostA: number };
      readonly reasons: readonly string[];
      readonly cautions: readonly string[];
    };
