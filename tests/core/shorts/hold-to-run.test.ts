import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  advanceHold,
  type HoldCommand,
  type HoldEvent,
  type HoldState,
  IDLE_HOLD,
} from '../../../core/shorts/hold-to-run.ts';

const PLAN = { steps: 4, holdMs: 5000 };

function run(events: readonly HoldEvent[]): { state: HoldState; commands: HoldCommand[] } {
  let state: HoldState = IDLE_HOLD;
  const commands: HoldCommand[] = [];
  for (const event of events) {
    const next = advanceHold(state, event, PLAN);
    state = next.state;
    commands.push(...next.commands);
  }
  return { state, commands };
}
const names = (commands: readonly HoldCommand[]) => commands.map(({ command }) => command);

describe('advanceHold', () => {
  it('sets the limit before the output comes on, and released is off', () => {
    const { commands, state } = run([
      { event: 'press', atMs: 0 },
      { event: 'release', atMs: 900 },
    ]);
    expect(names(commands)).toEqual(['set-limit', 'output-on', 'output-off']);
    expect(state.phase).toBe('idle');
  });

  it('takes silence of the key or pedal for a release', () => {
    const { commands } = run([
      { event: 'press', atMs: 0 },
      { event: 'still-held', atMs: 200 },
      { event: 'tick', atMs: 790 },
      { event: 'tick', atMs: 810 },
    ]);
    expect(commands.at(-1)).toEqual({
      command: 'output-off',
      because: 'the key or pedal went silent',
    });
  });

  it('ends each press after the time of its step, however long it is held', () => {
    const events: HoldEvent[] = [{ event: 'press', atMs: 0 }];
    for (let atMs = 100; atMs <= 6000; atMs += 100) events.push({ event: 'still-held', atMs });
    const { commands } = run(events);
    expect(names(commands).filter((name) => name === 'output-off')).toHaveLength(1);
  });

  it('raises one step at a time, never past the last, and keeps it for the next press', () => {
    const raise = (atMs: number): HoldEvent => ({ event: 'raise', atMs });
    const { state, commands } = run([
      raise(0),
      raise(1),
      raise(2),
      raise(3),
      raise(4),
      { event: 'press', atMs: 5 },
    ]);
    expect(state.step).toBe(3);
    expect(commands[0]).toEqual({ command: 'set-limit', step: 3 });
  });

  it('stays off after a trip until a person acknowledges it, and begins at the first step again', () => {
    const { state, commands } = run([
      { event: 'raise', atMs: 0 },
      { event: 'press', atMs: 1 },
      { event: 'trip', atMs: 2, reason: '0.71 V is above the ceiling' },
      { event: 'press', atMs: 3 },
    ]);
    expect(state).toMatchObject({ phase: 'tripped', reason: '0.71 V is above the ceiling' });
    expect(names(commands).at(-1)).toBe('output-off');
    const after = advanceHold(state, { event: 'acknowledge', atMs: 4 }, PLAN);
    expect(after.state).toMatchObject({ phase: 'idle', step: 0 });
  });

  it('is on only between a press and the next off, whatever comes in whatever order', () => {
    const kinds = [
      'press',
      'still-held',
      'release',
      'tick',
      'raise',
      'lower',
      'trip',
      'acknowledge',
    ] as const;
    const anyEvent = fc.record({
      kind: fc.constantFrom(...kinds),
      gap: fc.integer({ min: 0, max: 2000 }),
    });
    fc.assert(
      fc.property(fc.array(anyEvent, { maxLength: 60 }), (list) => {
        let state: HoldState = IDLE_HOLD;
        let isOn = false;
        let atMs = 0;
        for (const { kind, gap } of list) {
          atMs += gap;
          const event = (
            kind === 'trip' ? { event: kind, atMs, reason: 'x' } : { event: kind, atMs }
          ) as HoldEvent;
          const next = advanceHold(state, event, PLAN);
          for (const { command } of next.commands) {
            if (command === 'output-on') isOn = true;
            if (command === 'output-off') isOn = false;
          }
          state = next.state;
          expect(isOn).toBe(state.phase === 'running');
          expect(state.step).toBeGreaterThanOrEqual(0);
          expect(state.step).toBeLessThan(PLAN.steps);
        }
      }),
    );
  });
});
