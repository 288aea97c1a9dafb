/** A board on the pretend bench's shelf, as the window lists it. */
export interface ShelfBoard {
  readonly key: string;
  readonly name: string;
  readonly story: string;
  readonly statedInputV: number;
  readonly statedLimitA: number;
  /** Places a probe can touch. */
  readonly points: readonly string[];
  /** Parts that can be replaced; the right one mends the board. */
  readonly parts: readonly string[];
}
