/** Text from a person inside our sentence: a right-to-left word must not turn the rest round. */
export function isolate(text: string): string {
  return `\u2068${text.trim()}\u2069`;
}
