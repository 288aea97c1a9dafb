/** White space of IEEE 488.2, 7.4.1.2: every control character and the blank, except LF. */
export function isBlank(character: string): boolean {
  return character <= ' ' && character !== '\n';
}

/** The first place at or after `at` that is not white space. */
export function skipBlanks(text: string, at: number): number {
  let place = at;
  while (place < text.length && isBlank(text[place] ?? '')) place += 1;
  return place;
}
