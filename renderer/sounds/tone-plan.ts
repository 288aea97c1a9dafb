/** One note of a tone. Times in seconds from its start; loudness 0 to 1. */
export interface Note {
  readonly atS: number;
  readonly forS: number;
  readonly hz: number;
  readonly loud: number;
  readonly shape: 'sine' | 'triangle';
}

export type ToneName = 'taken' | 'replaced' | 'refused' | 'alarm' | 'stage';

const note = (atS: number, forS: number, hz: number, loud = 0.25): Note => ({
  atS,
  forS,
  hz,
  loud,
  shape: 'sine',
});
const harsh = (atS: number, forS: number, hz: number): Note => ({
  ...note(atS, forS, hz, 0.4),
  shape: 'triangle',
});

/**
 * The tones: each has a rhythm of its own, so that they are told apart without hearing pitch.
 * Taken is one rising pair, replaced two of them, refused one low note, a stage one soft note; the
 * alarm is long and the loudest.
 */
export const TONES: Readonly<Record<ToneName, readonly Note[]>> = {
  taken: [note(0, 0.07, 880), note(0.08, 0.12, 1320)],
  replaced: [
    note(0, 0.05, 880),
    note(0.06, 0.07, 1320),
    note(0.2, 0.05, 880),
    note(0.26, 0.1, 1320),
  ],
  refused: [note(0, 0.22, 196, 0.35)],
  stage: [note(0, 0.25, 587, 0.15)],
  alarm: [0, 0.5, 1].flatMap((at) => [harsh(at, 0.22, 988), harsh(at + 0.22, 0.22, 740)]),
};
