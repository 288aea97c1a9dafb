/** Where injecting stands. */
export interface HoldState {
  readonly phase: 'idle' | 'running' | 'tripped';
  /** Index into the plan's steps. */
  readonly step: number;
  /** Milliseconds of the monotonic clock at which the present press began. */
  readonly pressedAtMs: number;
  /** Last sign of life of the key or pedal. */
  readonly heardAtMs: number;
  readonly reason: string;
}

export type HoldEvent =
  | { readonly event: 'press'; readonly atMs: number }
  | { readonly event: 'still-held'; readonly atMs: number }
  | { readonly event: 'release'; readonly atMs: number }
  | { readonly event: 'tick'; readonly atMs: number }
  | { readonly event: 'raise'; readonly atMs: number }
  | { readonly event: 'lower'; readonly atMs: number }
  | { readonly event: 'trip'; readonly atMs: number; readonly reason: string }
  | { readonly event: 'acknowledge'; readonly atMs: number };

/** What the supply is to do; `limit` names the step whose limit to set. */
export type HoldCommand =
  | { readonly command: 'output-on'; readonly step: number }
  | { readonly command: 'output-off'; readonly because: string }
  | { readonly command: 'set-limit'; readonly step: number };

/** No sign of the key or pedal for this long counts as released. */
export const RELEASED_AFTER_MS = 600;

export const IDLE_HOLD: HoldState = {
  phase: 'idle',
  step: 0,
  pressedAtMs: 0,
  heardAtMs: 0,
  reason: '',
};

/**
 * Hold-to-run as a state machine: the output is on only while the key or pedal is held, for no longer
 * than `holdMs` a press; the limit goes up one step at a time. Anything else is off.
 */
export function advanceHold(
  state: HoldState,
  event: HoldEvent,
  plan: { readonly steps: number; readonly holdMs: number },
): { readonly state: HoldState; readonly commands: readonly HoldCommand[] } {
  const stay = { state, commands: [] };
  const stop = (because: string, phase: HoldState['phase'] = 'idle') => ({
    state: { ...state, phase, reason: because },
    commands: [{ command: 'output-off' as const, because }],
  });
  switch (event.event) {
    case 'press':
      if (state.phase !== 'idle') return stay;
      return {
        state: {
          ...state,
          phase: 'running',
          pressedAtMs: event.atMs,
          heardAtMs: event.atMs,
          reason: '',
        },
        commands: [
          { command: 'set-limit', step: state.step },
          { command: 'output-on', step: state.step },
        ],
      };
    case 'still-held':
    case 'tick': {
      if (state.phase !== 'running') return stay;
      if (event.atMs - state.heardAtMs > RELEASED_AFTER_MS)
        return stop('the key or pedal went silent');
      if (event.atMs - state.pressedAtMs >= plan.holdMs)
        return stop('held for the time of this step');
      const heardAtMs = event.event === 'tick' ? state.heardAtMs : event.atMs;
      return { state: { ...state, heardAtMs }, commands: [] };
    }
    case 'release':
      return state.phase === 'running' ? stop('released') : stay;
    case 'raise':
    case 'lower': {
      if (state.phase === 'tripped') return stay;
      const wanted = state.step + (event.event === 'raise' ? 1 : -1);
      if (wanted < 0 || wanted >= plan.steps) return stay;
      const commands =
        state.phase === 'running' ? [{ command: 'set-limit' as const, step: wanted }] : [];
      return { state: { ...state, step: wanted }, commands };
    }
    case 'trip':
      return stop(event.reason, 'tripped');
    case 'acknowledge':
      return state.phase === 'tripped' ? { state: { ...IDLE_HOLD }, commands: [] } : stay;
  }
}
