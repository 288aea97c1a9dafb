import { type InjectionState, NO_INJECTION } from '../../core/contract/injection-calls.ts';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import { injectionGuard } from '../../core/guard/injection-guard.ts';
import {
  advanceHold,
  type HoldEvent,
  type HoldState,
  IDLE_HOLD,
} from '../../core/shorts/hold-to-run.ts';
import { LEAD_SAMPLES, type LeadSample, leadOhmOf } from '../../core/shorts/lead-ohm.ts';
import { checkInjectionVolts } from '../../core/shorts/plan-injection.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { admitInjection } from './admit-injection.ts';
import type { BenchInjection, InjectionParts } from './injection-parts.ts';
import { createNoiseWatch } from './noise-watch.ts';
import { restoreSetPoints } from './restore-set-points.ts';

/** A running press is told of this often, in beats. */
const TELL_BEATS = 4;
/** From the order to switch until readings show it. */
const SWITCHED_MS = 700;
/** The first readings of a press are those of a current that still rises. */
const SETTLED_MS = 500;

/** Makes the mode, off. */
export function createBenchInjection(parts: InjectionParts): BenchInjection {
  const { clock, ledger } = parts;
  let state = NO_INJECTION;
  let hold: HoldState = IDLE_HOLD;
  let beats = 0;
  let offAtMs = Number.NEGATIVE_INFINITY;
  let onAtMs = Number.POSITIVE_INFINITY;
  let leads: LeadSample[] = [];
  const noise = createNoiseWatch();

  const planOf = () => {
    if (state.plan !== null) return state.plan;
    throw closed('Current is not being put in', 'Enter the mode first.');
  };
  const stepOf = (index: number) => planOf().steps[index] ?? planOf().steps[0]!;

  function change(part: Partial<InjectionState>): InjectionState {
    state = { ...state, ...part };
    parts.tell(state);
    return state;
  }

  function off(): void {
    offAtMs = clock.nowMs();
    onAtMs = Number.POSITIVE_INFINITY;
    leads = [];
    try {
      const driver = parts.supply().driver();
      driver.outputOff().catch((thrown) => parts.alarm(troubleOf(thrown, 'injecting')));
    } catch (thrown) {
      parts.alarm(troubleOf(thrown, 'injecting'));
    }
  }

  /** Moves the held key on; what must be switched off is, before anything is waited for. */
  function move(event: HoldEvent): void {
    const plan = state.plan;
    if (plan === null) return;
    const holdMs = stepOf(hold.step).holdS * 1000;
    const moved = advanceHold(hold, event, { steps: plan.steps.length, holdMs });
    const before = hold;
    hold = moved.state;
    const isOff = moved.commands.some(({ command }) => command === 'output-off');
    if (isOff) off();
    if (!isOff && hold.phase === before.phase && hold.step === before.step) return;
    const phase = hold.phase === 'idle' ? 'ready' : hold.phase;
    change({ phase, step: hold.step, leftS: null, ...(isOff ? { said: said(hold.reason) } : {}) });
  }

  const isHeld = () => hold.phase === 'running';

  function leftS(): number | null {
    if (!isHeld()) return null;
    return Math.max(0, stepOf(hold.step).holdS - (clock.nowMs() - hold.pressedAtMs) / 1000);
  }

  async function press(): Promise<InjectionState> {
    planOf();
    if (hold.phase === 'tripped') {
      throw closed(hold.reason, 'Look at the board, then say that you have seen it.');
    }
    if (isHeld()) return state;
    move({ event: 'press', atMs: clock.nowMs() });
    try {
      if (state.purpose === 'rail') {
        if (parts.feed().cells) {
          throw closed('A cell is marked attached', 'Unplug it, then mark it so.');
        }
        await parts.checkGates();
      }
      const driver = parts.supply().driver();
      // Sent at each press: somebody may have turned a knob since.
      await driver.setLimit(stepOf(hold.step).limitA);
      await driver.setVolts(state.setV);
      await parts.beforeOutputOn();
      if (!isHeld()) return state;
      leads = [];
      await driver.outputOn();
      onAtMs = clock.nowMs();
      // Let go while it was being switched on: the off that went before came too early.
      if (!isHeld()) off();
      return change({ leftS: leftS(), said: '' });
    } catch (thrown) {
      letGo('it could not be switched on');
      throw thrown;
    }
  }

  function letGo(why: string): void {
    if (hold.phase !== 'running') return;
    move({ event: 'release', atMs: clock.nowMs() });
    change({ said: said(why) });
  }

  function tripped(text: string): void {
    if (state.plan === null) return;
    move({ event: 'trip', atMs: clock.nowMs(), reason: text });
  }

  async function step(of: 'limit' | 'volts', up: boolean): Promise<InjectionState> {
    const plan = planOf();
    const driver = parts.supply().driver();
    if (of === 'volts') {
      const wanted = Number((state.setV + (up ? plan.stepV : -plan.stepV)).toFixed(6));
      const isLast = up && state.setV < plan.ceilingV && wanted > plan.ceilingV;
      const setV = checkInjectionVolts(isLast ? plan.ceilingV : wanted, plan);
      await driver.setVolts(setV);
      return change({ setV });
    }
    const next = hold.step + (up ? 1 : -1);
    const limit = plan.steps[next];
    if (limit === undefined) {
      throw new WakelineError({
        code: 'out-of-range',
        what: up
          ? `${formatQuantity(plan.guard.mostA, 'A', null, { prefix: 0 })} is the ceiling of this plan`
          : 'The limit is at its first step',
        where: `injecting at ${state.rail}`,
        todo: up ? 'Look for heat, or measure along the rail at this current.' : 'Let go instead.',
      });
    }
    // The guard follows the step before the supply is told to give more.
    move({ event: up ? 'raise' : 'lower', atMs: clock.nowMs() });
    await driver.setLimit(limit.limitA);
    return state;
  }

  async function takeLeads(): Promise<void> {
    const samples = leads;
    const { huntId } = state;
    move({ event: 'release', atMs: clock.nowMs() });
    if (huntId === null) return;
    try {
      const { ohm } = leadOhmOf(samples);
      await ledger.changeHunt({ huntId, lead: { ohm, from: 'measured' } });
      change({
        said: `Taken: the leads are ${formatQuantity(ohm, 'Ω', null, { digits: 3 })}. Let go.`,
      });
    } catch (thrown) {
      const { what, todo } = troubleOf(thrown, 'lead resistance');
      change({ said: `${what}. ${todo}` });
    }
  }

  async function leave(): Promise<void> {
    if (state.plan === null) return;
    const { before } = state;
    if (hold.phase === 'running') letGo('left');
    else off();
    hold = IDLE_HOLD;
    const supply = parts.supply();
    try {
      await restoreSetPoints(supply, clock, before);
    } finally {
      change(NO_INJECTION);
    }
  }

  return {
    handlers: {
      injectionState: () => state,
      async enterInjection(args) {
        if (state.plan !== null) throw closed('Current is being put in already', 'Leave first.');
        const { plan, rail } = await admitInjection(parts, args);
        const supply = parts.supply();
        await supply.refresh();
        const before = { setV: supply.state.setV, limitA: supply.state.limitA };
        const [first] = plan.steps;
        try {
          await supply.driver().setVolts(plan.startV);
          await supply.driver().setLimit(first?.limitA ?? plan.guard.mostA);
        } catch (thrown) {
          await restoreSetPoints(supply, clock, before).catch(() => {});
          throw thrown;
        }
        await supply.refresh();
        hold = IDLE_HOLD;
        const { huntId, purpose } = args;
        const entered = { ...NO_INJECTION, huntId, purpose, rail, plan, before };
        return change({ ...entered, phase: 'ready', setV: plan.startV });
      },
      async leaveInjection() {
        await leave();
        return state;
      },
      async holdInjection({ hold: how }) {
        if (how === 'press') return press();
        const atMs = clock.nowMs();
        move(how === 'held' ? { event: 'still-held', atMs } : { event: 'release', atMs });
        return state;
      },
      stepInjection: ({ of, up }) => step(of, up),
      seenInjectionTrip() {
        move({ event: 'acknowledge', atMs: clock.nowMs() });
        return change({ said: '' });
      },
      measureMeterNoise: async () => ({ sigmaV: await noise.measure() }),
    },
    get huntId() {
      return state.plan === null ? null : state.huntId;
    },
    get guard() {
      const { plan } = state;
      if (plan === null) return null;
      const { voltsDecimals, ampsDecimals } = parts.supply().state;
      return injectionGuard({
        ceilingV: plan.ceilingV,
        mostA: plan.guard.mostA,
        stepA: stepOf(hold.step).limitA,
        voltsDecimals,
        ampsDecimals,
      });
    },
    mustBeOff(what) {
      if (state.plan === null) return;
      throw closed(
        `${what} while current is put in at ${state.rail}`,
        'Leave injecting first (Rails, short hunt): the volts and the limit from before come back.',
      );
    },
    seeSupply({ volts, amps, outputOn }) {
      if (state.plan === null) return;
      const nowMs = clock.nowMs();
      if (outputOn === true && !isHeld() && nowMs - offAtMs > SWITCHED_MS) {
        off();
        change({ said: 'The output was on with no key held: it was switched off.' });
      }
      if (outputOn === false && isHeld() && nowMs - onAtMs > SWITCHED_MS) {
        letGo('it was switched off at the supply');
      }
      if (state.purpose !== 'leads' || !isHeld() || nowMs - onAtMs < SETTLED_MS) return;
      if (volts !== null && amps !== null) leads.push({ volts, amps });
      if (leads.length >= LEAD_SAMPLES) void takeLeads();
    },
    seeMeter: noise.see,
    beat() {
      if (state.plan === null) return;
      if (hold.phase !== 'tripped' && parts.supply().state.link === 'lost') {
        tripped('The supply was lost: switch it off at its own front');
      }
      if (!isHeld()) return;
      move({ event: 'tick', atMs: clock.nowMs() });
      beats += 1;
      if (isHeld() && beats % TELL_BEATS === 0) change({ leftS: leftS() });
    },
    letGo,
    tripped,
    leave,
  };
}

const said = (why: string) => (why === '' ? '' : `Off: ${why}.`);

function closed(what: string, todo: string): WakelineError {
  return new WakelineError({ code: 'gate-closed', what, where: 'injecting', todo });
}
