/** Text as searches compare it: one form of each letter, no case. */
export function foldText(text: string): string {
  return text.normalize('NFKC').toLowerCase();
}

/** The words of a search, folded; each must occur somewhere. */
export function searchWords(search: string): readonly string[] {
  return foldText(search)
    .split(/\s+/u)
    .filter((word) => word !== '');
}
