import type { ProbePoint } from '../../core/contract/probing-calls.ts';
import type { ChecklistItem } from '../../core/job/job.ts';

/** The list that hands-free measuring goes along: which points are left, and which is next. */
export interface ProbePoints {
  readonly next: ProbePoint | null;
  readonly left: number;
  /** The checklist as it stands now: points that somebody settled by hand drop out. */
  refresh(items: readonly ChecklistItem[]): void;
  skip(): void;
  /** The point of an undone or replaced reading is the next one again. */
  backTo(itemId: string): void;
}

/** Makes the list from steps in order; `wanted` null = every step that asks for a reading. */
export function createProbePoints(
  items: readonly ChecklistItem[],
  wanted: readonly string[] | null,
): ProbePoints {
  const isPoint = (item: ChecklistItem) => item.needs === 'reading' && item.quantity !== null;
  const order = wanted ?? items.filter(isPoint).map((item) => item.id);
  const passed = new Set<string>();
  let known = new Map(items.map((item) => [item.id, item]));
  let first: string | null = null;

  function open(): readonly ProbePoint[] {
    const ids = first === null ? order : [first, ...order.filter((id) => id !== first)];
    return ids.flatMap((id) => {
      const item = known.get(id);
      if (item === undefined || item.quantity === null || passed.has(id)) return [];
      if (item.state !== 'open') return [];
      const { title, place, quantity } = item;
      return [{ itemId: id, title, place, quantity }];
    });
  }

  return {
    get next() {
      return open()[0] ?? null;
    },
    get left() {
      return open().length;
    },
    refresh(now) {
      known = new Map(now.map((item) => [item.id, item]));
      if (first !== null && known.get(first)?.state !== 'open') first = null;
    },
    skip() {
      const next = open()[0];
      if (next !== undefined) passed.add(next.itemId);
      first = null;
    },
    backTo(itemId) {
      passed.delete(itemId);
      first = itemId;
    },
  };
}
