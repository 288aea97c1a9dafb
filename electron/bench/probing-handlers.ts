import type { Handlers } from '../../core/contract/contract.ts';
import type { ProbeState, probingCalls } from '../../core/contract/probing-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Quantity } from '../../core/job/job.ts';
import type { ProbingParts, ProbingSession } from './probing-parts.ts';

/** What the calls act on. */
export interface ProbingDesk {
  state(): ProbeState;
  change(part: Partial<ProbeState>): ProbeState;
  session(): ProbingSession | null;
  begin(along: 'list' | 'free' | 'view', itemIds: readonly string[] | null): Promise<void>;
  stop(): ProbeState;
  force(): Promise<void>;
  /** The function that a view's point needs. */
  aim(quantity: Quantity): Promise<void>;
  then(act: () => Promise<void>): Promise<void>;
  toNext(): Promise<void>;
  readItems(): Promise<unknown>;
}

export type ProbingHandlers = Omit<Handlers<typeof probingCalls>, 'holdOutput'>;

/** The calls about measuring hands-free. */
export function probingHandlers(parts: ProbingParts, desk: ProbingDesk): ProbingHandlers {
  const { ledger } = parts;

  function mustBeOn(): ProbingSession {
    const session = desk.session();
    if (session !== null) return session;
    throw new WakelineError({
      code: 'not-connected',
      what: 'Hands-free measuring is off',
      where: 'hands-free',
      todo: 'Start it first.',
    });
  }

  return {
    probeState: () => desk.state(),
    startProbing: async ({ along, itemIds, quantity }) => {
      const bench = parts.bench();
      if (bench.meter.link !== 'live') {
        throw new WakelineError({
          code: 'not-connected',
          what: 'No meter is connected, so there is nothing to take readings from',
          where: 'hands-free',
          todo: 'Connect one in the instruments view.',
        });
      }
      if (along === 'list' && bench.jobId === null) {
        throw new WakelineError({
          code: 'not-found',
          what: 'There is no job on the bench, so there is no list to go along',
          where: 'hands-free',
          todo: 'Open a job, or measure at any point and name the readings afterwards.',
        });
      }
      await desk.begin(along, itemIds);
      if (quantity != null) await desk.aim(quantity);
      await desk.then(desk.toNext);
      return desk.state();
    },
    stopProbing: () => desk.stop(),
    forceProbe: async () => {
      mustBeOn();
      await desk.force();
      return desk.state();
    },
    undoProbe: async () => {
      await desk.then(async () => {
        const [last, ...rest] = desk.state().taken;
        if (last === undefined || last.readingId === null) {
          desk.change({ why: 'There is no reading here to take back.' });
          return;
        }
        await ledger.forgetReading({ readingId: last.readingId });
        desk.change({ taken: rest, why: null });
        await desk.readItems();
        if (last.itemId !== null) desk.session()?.points?.backTo(last.itemId);
        await desk.toNext();
      });
      return desk.state();
    },
    skipProbe: async () => {
      const session = mustBeOn();
      await desk.then(async () => {
        session.points?.skip();
        await desk.toNext();
      });
      return desk.state();
    },
    nameProbe: async ({ readingId, itemId, place }) => {
      const { jobId } = parts.bench();
      const named = await ledger.giveReading({ readingId, jobId, itemId, place });
      await desk.readItems();
      const taken = desk
        .state()
        .taken.map((one) =>
          one.readingId === readingId ? { ...one, itemId: named.itemId, place: named.place } : one,
        );
      return desk.change({ taken, why: null });
    },
  };
}
