/**
 * Runs pieces of work one after the other, in the order they were asked for: a connect that is
 * still under way must end before the next one begins, or both would go on reading.
 */
export function inTurn(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const mine = last.then(work, work);
    last = mine.catch(() => undefined);
    return mine;
  };
}
