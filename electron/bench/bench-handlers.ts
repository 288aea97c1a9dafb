import type { PretendBench } from '../../core/bench-model/pretend-bench.ts';
import type { BenchState, benchCalls } from '../../core/contract/bench-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Feed, Job } from '../../core/job/job.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { RecorderCalls } from '../ledger/recorder-calls.ts';
import type { BenchMeter } from './bench-meter.ts';
import type { BenchRecorder } from './bench-recorder.ts';
import type { BenchSupply } from './bench-supply.ts';
import type { BenchInjection } from './injection-parts.ts';
import { listSerialPorts } from './serial-ports.ts';

export interface BenchParts {
  readonly clock: Clock;
  readonly supply: BenchSupply;
  readonly meter: BenchMeter;
  readonly recorder: BenchRecorder;
  readonly ledger: RecorderCalls;
  pretend(): PretendBench | null;
  state(): BenchState;
  changed(): void;
  job(): Job | null;
  openJob(id: string | null): Promise<void>;
  setFeed(feed: Feed): void;
  remember(): void;
  readonly injection: BenchInjection;
  /** The job's own steps before power. Throws `gate-closed`. */
  checkGates(): Promise<void>;
  /** Makes sure that somebody would switch off if this process died. Throws `gate-closed`. */
  beforeOutputOn(): Promise<void>;
}

/** Room for a set-point that was rounded on its way. */
const VOLTS_SLACK = 1e-6;

/** The calls that act on the bench. */
export function benchHandlers(parts: BenchParts): Handlers<typeof benchCalls> {
  const { supply, meter, recorder, injection } = parts;
  const after = async (act: () => Promise<unknown> | unknown): Promise<BenchState> => {
    await act();
    parts.changed();
    return parts.state();
  };

  function confirmVolts(volts: number): void {
    const stated = parts.job()?.board.statedInputV ?? null;
    const nowV = supply.state.setV;
    const above = stated !== null && volts > stated + VOLTS_SLACK;
    const raisedLive =
      supply.state.outputOn === true && nowV !== null && volts > nowV + VOLTS_SLACK;
    if (!above && !raisedLive) return;
    throw new WakelineError({
      code: 'needs-confirmation',
      what: above
        ? `${volts} V is above this board's stated input of ${stated} V`
        : `The output is on at ${nowV} V; this raises it to ${volts} V`,
      where: 'set volts',
      todo: 'Confirm if you mean it. Nothing was sent.',
    });
  }

  /** A supply that does not answer can still be let go of. */
  const leaveAnyway = () => injection.leave().catch(() => {});

  return {
    benchState: () => parts.state(),
    listPorts: () => listSerialPorts(),
    connect: ({ role, address }) =>
      after(async () => {
        if (role === 'supply') {
          await leaveAnyway();
          await supply.disconnect();
          await recorder.stop('app-closed');
          await supply.connect(address);
        } else await meter.connect(address);
        parts.remember();
      }),
    disconnect: ({ role }) =>
      after(async () => {
        if (role === 'supply') {
          await leaveAnyway();
          await supply.disconnect();
          await recorder.stop('app-closed');
        } else await meter.disconnect();
        parts.remember();
      }),
    openJobOnBench: ({ jobId }) =>
      after(async () => {
        if (jobId !== (parts.job()?.id ?? null)) await injection.leave();
        await parts.openJob(jobId);
      }),
    setFeed: ({ feed }) =>
      after(async () => {
        parts.setFeed(feed);
        if (feed.cells) await injection.leave();
      }),
    setVolts: ({ volts, confirmed }) =>
      after(async () => {
        injection.mustBeOff('No other volts');
        if (!confirmed) confirmVolts(volts);
        await supply.driver().setVolts(volts);
        await supply.refresh();
      }),
    setLimit: ({ amps }) =>
      after(async () => {
        injection.mustBeOff('No other limit');
        await supply.driver().setLimit(amps);
        await supply.refresh();
      }),
    outputOn: () =>
      after(async () => {
        injection.mustBeOff('The board is not powered');
        await parts.checkGates();
        await parts.beforeOutputOn();
        await supply.driver().outputOn();
      }),
    outputOff: () =>
      after(() => {
        injection.letGo('switched off by hand');
        return supply.driver().outputOff();
      }),
    mark: ({ mark, text }) => {
      const run = recorder.current;
      if (run === null) {
        throw new WakelineError({
          code: 'not-connected',
          what: 'Nothing is being recorded, so there is nothing to mark',
          where: 'mark',
          todo: 'Connect a supply first.',
        });
      }
      const tick = run.tickAt(parts.clock.nowMs());
      if (mark === 'wake-request') run.tracker.wakeRequest(tick);
      else run.tracker.note(tick, text);
      return { mark, atS: tick / TICKS_PER_SECOND, text };
    },
    meterFunction: ({ quantity }) =>
      after(async () => {
        const passive = quantity === 'ohms' || quantity === 'diode' || quantity === 'continuity';
        if (passive && supply.state.outputOn === true) {
          throw new WakelineError({
            code: 'gate-closed',
            what: `No ${quantity} while the output is on`,
            where: 'meter',
            todo: 'Switch the output off, wait until the rail is discharged, then measure.',
          });
        }
        await meter.driver().configure(quantity);
      }),
    hands: (hand) =>
      after(() => {
        const bench = parts.pretend();
        if (bench === null) {
          throw new WakelineError({
            code: 'not-connected',
            what: 'The pretend bench is not in use',
            where: 'pretend bench',
            todo: 'Do it at the real board.',
          });
        }
        switch (hand.do) {
          case 'put-board':
            return bench.putBoard(hand.board === '' ? null : hand.board);
          case 'probe':
            return bench.probe(hand.point);
          case 'clip':
            return bench.clip(hand.point);
          case 'press-wake':
            return bench.pressWake();
          case 'replace-part':
            return bench.replacePart(hand.part);
        }
      }),
  };
}
