/** How alike two runs are, from their distance (see `signatureDistance`). Common practice, no source. */
export function likenessWords(distance: number): string {
  if (distance < 0.1) return 'the same curve';
  if (distance < 0.3) return 'much alike';
  return distance < 0.7 ? 'somewhat alike' : 'hardly alike';
}
