import { contextBridge, ipcRenderer } from 'electron';
import type { Bridge, EventName, Events } from '../../core/contract/contract.ts';

/** Put in by the build from the contract's own names. */
declare const __CALL_NAMES__: readonly string[];

const asks = Object.fromEntries(
  __CALL_NAMES__.map((name) => [name, (args: unknown) => ipcRenderer.invoke(`ask:${name}`, args)]),
);

function on<E extends EventName>(event: E, listener: (fact: Events[E]) => void): () => void {
  const hear = (_event: unknown, fact: Events[E]) => listener(fact);
  ipcRenderer.on(`fact:${event}`, hear);
  return () => ipcRenderer.removeListener(`fact:${event}`, hear);
}

contextBridge.exposeInMainWorld('wakeline', { ...asks, on } as unknown as Bridge);
