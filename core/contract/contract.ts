import type { Result } from '../errors.ts';
import { appCalls } from './app-calls.ts';
import { attentionCalls } from './attention-calls.ts';
import { type BenchEvents, benchCalls } from './bench-calls.ts';
import { boardCalls } from './board-calls.ts';
import type { AnswerOf, ArgsOf } from './call.ts';
import { type CopyEvents, copyCalls } from './copy-calls.ts';
import { evidenceCalls } from './evidence-calls.ts';
import { guardCalls } from './guard-calls.ts';
import { huntCalls } from './hunt-calls.ts';
import { type InjectionEvents, injectionCalls } from './injection-calls.ts';
import { jobCalls } from './job-calls.ts';
import { matchCalls } from './match-calls.ts';
import { partCalls } from './part-calls.ts';
import { pictureCalls } from './picture-calls.ts';
import { type ProbingEvents, probingCalls } from './probing-calls.ts';
import { runCalls } from './run-calls.ts';
import { searchCalls } from './search-calls.ts';
import { setupCalls } from './setup-calls.ts';
import { shopCalls } from './shop-calls.ts';
import { type SoakEvents, soakCalls } from './soak-calls.ts';
import { templateCalls, templateFileCalls } from './template-calls.ts';
import { type TraceFileEvents, traceFileCalls } from './trace-file-calls.ts';

/** Everything the window may ask. Call name = handler name = bridge method name. */
export const calls = {
  ...appCalls,
  ...attentionCalls,
  ...benchCalls,
  ...boardCalls,
  ...copyCalls,
  ...evidenceCalls,
  ...guardCalls,
  ...huntCalls,
  ...injectionCalls,
  ...jobCalls,
  ...matchCalls,
  ...partCalls,
  ...pictureCalls,
  ...probingCalls,
  ...runCalls,
  ...searchCalls,
  ...setupCalls,
  ...shopCalls,
  ...soakCalls,
  ...templateCalls,
  ...templateFileCalls,
  ...traceFileCalls,
} as const;
export type Calls = typeof calls;
export type CallName = keyof Calls;

/** Everything main tells the window. */
export type Events = BenchEvents &
  CopyEvents &
  InjectionEvents &
  ProbingEvents &
  SoakEvents &
  TraceFileEvents;
export type EventName = keyof Events;
export const eventNames = [
  'benchChanged',
  'liveBatch',
  'stagesChanged',
  'runEnded',
  'jobChanged',
  'alarmRaised',
  'probeChanged',
  'injectionChanged',
  'soakChanged',
  'traceProgress',
  'copyProgress',
  'copiesChanged',
] as const satisfies readonly EventName[];

/** What the preload puts on `window.wakeline`: one method a call, one subscription for events. */
export type Bridge = {
  readonly [N in CallName]: (args: ArgsOf<Calls[N]>) => Promise<Result<AnswerOf<Calls[N]>>>;
} & {
  readonly on: <E extends EventName>(event: E, listener: (fact: Events[E]) => void) => () => void;
};

/** The functions behind a group of calls: checked arguments in, the answer out. */
export type Handlers<C> = {
  readonly [N in keyof C]: (args: ArgsOf<C[N]>) => Promise<AnswerOf<C[N]>> | AnswerOf<C[N]>;
};
