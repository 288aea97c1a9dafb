import type { AnswerOf, ArgsOf } from '../../core/contract/call.ts';
import type { CallName, Calls } from '../../core/contract/contract.ts';
import type { Result } from '../../core/errors.ts';
import type { BookPane, Desk, DeskState, View } from './desk.ts';

/** What views do to the world. A refusal is kept as the window's trouble until the next thing done succeeds. */
export interface Actions {
  /** Asks main; on failure shows the trouble and answers null. */
  readonly ask: <N extends CallName>(
    name: N,
    args: ArgsOf<Calls[N]>,
  ) => Promise<AnswerOf<Calls[N]> | null>;
  /** Asks main and leaves the trouble to the caller, for forms that show it at the field. */
  readonly tryAsk: <N extends CallName>(
    name: N,
    args: ArgsOf<Calls[N]>,
  ) => Promise<Result<AnswerOf<Calls[N]>>>;
  readonly show: (view: View) => void;
  readonly say: (text: string) => void;
  /** Opens a job's page in the book, at a place that a search found. */
  readonly openJob: (jobId: string | null, place?: DeskState['openPlace']) => void;
  readonly placeReached: () => void;
  readonly showPane: (pane: BookPane) => void;
  readonly replay: (runId: string | null) => void;
  /** Lays runs over one another; the first is what the others are held against. */
  readonly compare: (runIds: readonly string[]) => void;
  readonly dismissTrouble: () => void;
  readonly dismissAlarm: () => void;
  readonly clearFinished: () => void;
  readonly outputOff: () => void;
}

/** Calls that a view makes by itself: their success is no news, and clears no message. */
const READS =
  /^(list|read|search|find|like|bandFor|compareRuns|stageEvidence|runs|loose|recovered|benchState|appFacts|guardState)/;

export function createActions(desk: Desk): Actions {
  const { bridge, store } = desk;

  const tryAsk: Actions['tryAsk'] = (name, args) => {
    // The contract ties the name to its arguments and answer; a union of methods cannot show it.
    const method = bridge[name] as (
      given: typeof args,
    ) => Promise<Result<AnswerOf<Calls[typeof name]>>>;
    return method(args);
  };

  const ask: Actions['ask'] = async (name, args) => {
    const answer = await tryAsk(name, args);
    if (answer.ok) {
      if (!READS.test(name)) store.change({ trouble: null });
      return answer.value;
    }
    store.change({ trouble: answer.trouble });
    return null;
  };

  return {
    ask,
    tryAsk,
    show: (view) => store.change({ view }),
    say: (said) => store.change({ said }),
    openJob: (openJobId, openPlace = null) =>
      store.change({ openJobId, openPlace, bookPane: 'job', view: 'jobs' }),
    placeReached: () => store.change({ openPlace: null }),
    showPane: (bookPane) => store.change({ bookPane, view: 'jobs' }),
    replay: (replayRunId) => store.change({ replayRunId, view: 'replay' }),
    compare: (compareRunIds) => store.change({ compareRunIds, view: 'compare' }),
    dismissTrouble: () => store.change({ trouble: null }),
    dismissAlarm: () => store.change({ alarms: store.get().alarms.slice(1) }),
    clearFinished: () => store.change({ finished: null }),
    outputOff: () => void ask('outputOff', {}),
  };
}
