/** Text as searches compare it: one form of each letter, no case. */
export function foldText(text: string): string {
  return text.normalize('NFKC').toLowerCase();
}
