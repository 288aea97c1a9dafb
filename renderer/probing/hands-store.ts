import {
  type AttentionSettings,
  USUAL_ATTENTION,
} from '../../core/attention/attention-settings.ts';
import type { Bridge } from '../../core/contract/contract.ts';
import type { ProbeState } from '../../core/contract/probing-calls.ts';
import type { SoakState } from '../../core/contract/soak-calls.ts';
import { createStore, type Store } from '../state/store.ts';

/** What the window knows of hands-free measuring, soaks, and what calls attention. */
export interface HandsState {
  readonly probe: ProbeState | null;
  readonly soak: SoakState | null;
  readonly attention: AttentionSettings;
  readonly isReadoutShown: boolean;
}

const stores = new WeakMap<Bridge, Store<HandsState>>();

/** The one store on a bridge; it listens from its first use on. */
export function handsOf(bridge: Bridge): Store<HandsState> {
  const known = stores.get(bridge);
  if (known !== undefined) return known;
  const store = createStore<HandsState>({
    probe: null,
    soak: null,
    attention: USUAL_ATTENTION,
    isReadoutShown: false,
  });
  stores.set(bridge, store);
  bridge.on('probeChanged', (probe) => store.change({ probe }));
  bridge.on('soakChanged', (soak) => store.change({ soak }));
  void bridge.probeState({}).then((answer) => {
    if (answer.ok && store.get().probe === null) store.change({ probe: answer.value });
  });
  void bridge.soakState({}).then((answer) => {
    if (answer.ok && store.get().soak === null) store.change({ soak: answer.value });
  });
  void bridge.attention({}).then((answer) => {
    if (answer.ok && answer.value !== null) store.change({ attention: answer.value });
  });
  return store;
}
