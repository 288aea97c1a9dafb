/** A reason as it is set on screen: the tracker writes plain ASCII. */
export function reasonWords(reason: string): string {
  return reason.replaceAll('+-', '±');
}
