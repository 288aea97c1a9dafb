import { useSyncExternalStore } from 'react';

/** A value that views watch. Every change makes a new value; listeners are told after it. */
export interface Store<T> {
  readonly get: () => T;
  /** Replaces the fields given. Does nothing when none of them differs. */
  readonly change: (fields: Partial<T>) => void;
  readonly subscribe: (listener: () => void) => () => void;
}

export function createStore<T extends object>(initial: T): Store<T> {
  let value = initial;
  const listeners = new Set<() => void>();
  return {
    get: () => value,
    change: (fields) => {
      const keys = Object.keys(fields) as (keyof T)[];
      if (keys.every((key) => Object.is(value[key], fields[key]))) return;
      value = { ...value, ...fields };
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Watches one part of a store. `pick` must return the same reference while nothing changed. */
export function useStore<T, S>(store: Store<T>, pick: (value: T) => S): S {
  return useSyncExternalStore(store.subscribe, () => pick(store.get()));
}
