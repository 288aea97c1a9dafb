import type { OrElse, SequencePlan, SequenceStep } from './board-plan.ts';
import type { Network } from './network.ts';
import type { SeededRandom } from './seeded-random.ts';

/** What the sequencer sees and moves. */
export interface SequencerBoard {
  readonly network: Network;
  readonly random: SeededRandom;
  isGood(converter: string): boolean;
  isFaulty(part: string): boolean;
}

/** The board's own start-up controller. */
export interface Sequencer {
  /** When it next has something to do by itself; Infinity = never. */
  nextS(): number;
  pressWake(): void;
  /** Does what is due at `t`. Gives true when it changed the circuit. */
  run(t: number): boolean;
}

/** What came of a step: go on after so many seconds, stay at it, or what to do as it failed. */
type StepOutcome = number | 'stay' | OrElse;

/** Makes the controller of a board, not yet powered. */
export function createSequencer(plan: SequencePlan, board: SequencerBoard): Sequencer {
  /** Index of the step that it is at; -1 = the controller has no power. */
  let at = -1;
  let dueS = Infinity;
  let deadlineS = Infinity;
  let woken = false;
  let changed = false;
  const seenGood = new Set<string>();
  const { converters, loads } = board.network;

  function enable(part: string, enabled: boolean): void {
    const converter = converters.find((other) => other.plan.part === part);
    if (!converter) return;
    converter.enabled = enabled && converter.canEnable;
    changed = true;
  }

  function allOff(): void {
    for (const { plan: converter } of converters) {
      if (!converter.alwaysOn) enable(converter.part, false);
    }
    for (const load of loads) {
      load.amps = load.plan.amps;
      load.busy = null;
    }
    seenGood.clear();
    woken = false;
    deadlineS = Infinity;
  }

  function begin(t: number, afterS: number): void {
    allOff();
    at = 0;
    dueS = t + afterS;
  }

  function giveUp(orElse: OrElse, t: number): void {
    if (orElse === 'restart') {
      begin(t, plan.restartAfterS);
      return;
    }
    if (orElse === 'off') allOff();
    const waitsAt = orElse === 'off' ? plan.steps.findIndex((s) => s.do === 'await-wake') : -1;
    at = waitsAt < 0 ? plan.steps.length : waitsAt;
    dueS = Infinity;
  }

  function awaitGood(step: { converter: string; withinS: number; orElse: OrElse }, t: number) {
    if (board.isGood(step.converter)) {
      seenGood.add(step.converter);
      deadlineS = Infinity;
      return 0;
    }
    if (deadlineS === Infinity) deadlineS = t + step.withinS;
    if (t >= deadlineS) return step.orElse;
    dueS = deadlineS;
    return 'stay';
  }

  function setLoad(step: Extract<SequenceStep, { do: 'load' | 'busy' }>, t: number): void {
    const load = loads.find((other) => other.plan.name === step.load);
    if (!load) return;
    changed = true;
    if (step.do === 'load') load.amps = step.amps;
    const { fromA, toA, dwellS } = step.do === 'busy' ? step : { fromA: 0, toA: 0, dwellS: null };
    load.busy = dwellS && { fromA, toA, dwellS, nextS: t };
  }

  function take(step: SequenceStep, t: number): StepOutcome {
    switch (step.do) {
      case 'wait':
        return step.s;
      case 'await-wake':
        dueS = Infinity;
        return woken ? 0 : 'stay';
      case 'enable':
        enable(step.converter, true);
        return 0;
      case 'await-good':
        return awaitGood(step, t);
      case 'verify':
        return board.isFaulty(step.part) ? step.orElse : 0;
      case 'load':
      case 'busy':
        setLoad(step, t);
        return 0;
    }
  }

  function takeSteps(t: number): void {
    for (;;) {
      const step = plan.steps[at];
      if (!step || (t < dueS && step.do !== 'await-good')) return;
      const outcome = take(step, t);
      if (outcome === 'stay') return;
      if (typeof outcome === 'number') {
        at += 1;
        dueS = t + outcome;
        // Nothing follows the last step: it must not ask to be called again.
        if (at >= plan.steps.length) dueS = Infinity;
      } else {
        giveUp(outcome, t);
      }
    }
  }

  function moveBusyLoads(t: number): void {
    for (const load of loads) {
      const { busy } = load;
      if (!busy || t < busy.nextS) continue;
      load.amps = busy.fromA + (busy.toA - busy.fromA) * board.random.even() ** 1.5;
      const [least, most] = busy.dwellS;
      busy.nextS = t + least + (most - least) * board.random.even();
      changed = true;
    }
  }

  return {
    nextS: () => loads.reduce((soonest, l) => Math.min(soonest, l.busy?.nextS ?? Infinity), dueS),
    pressWake() {
      if (at < 0) return;
      woken = true;
      if (plan.steps[at]?.do === 'await-wake') dueS = 0;
    },
    run(t) {
      changed = false;
      if (!board.isGood(plan.poweredBy)) {
        if (at >= 0) allOff();
        at = -1;
        dueS = Infinity;
        return changed;
      }
      if (at < 0) begin(t, 0.05);
      if (plan.watches.some((part) => seenGood.has(part) && !board.isGood(part))) {
        begin(t, plan.restartAfterS);
      }
      takeSteps(t);
      moveBusyLoads(t);
      return changed;
    },
  };
}
