/**
 * Names among `known` that a typed beginning may mean, best first: those that begin with it, then
 * those in which a later word does (`5` finds `MAIN 5V`). Case, spaces and signs do not count.
 * Nothing typed finds every name.
 */
export function placesFor(typed: string, known: readonly string[]): readonly string[] {
  const names = [...new Set(known.map((name) => name.trim()).filter((name) => name !== ''))];
  const wanted = bare(typed);
  if (wanted === '') return names;
  const begins = names.filter((name) => bare(name).startsWith(wanted));
  const within = names.filter(
    (name) => !begins.includes(name) && parts(name).some((part) => part.startsWith(wanted)),
  );
  return [...begins, ...within];
}

const bare = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');

/** What is left of the name from each of its words on. */
function parts(name: string): readonly string[] {
  const words = name.split(/[^\p{L}\p{N}]+/u);
  return words.map((_, at) => bare(words.slice(at).join('')));
}
