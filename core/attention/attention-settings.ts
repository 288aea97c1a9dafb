import { z } from 'zod';

/** What a tone's pitch may follow. */
export const followed = z.enum(['off', 'draw', 'ohms', 'millivolts']);
export type Followed = z.infer<typeof followed>;

/** What calls a person's attention, each on or off. */
export const attentionSettings = z.object({
  /** Tones: a reading was taken; an alarm; the draw's stage changed. */
  toneTaken: z.boolean(),
  toneAlarm: z.boolean(),
  toneStage: z.boolean(),
  /** A tone without end whose pitch follows a reading. */
  follow: followed,
  /** Taken readings are said aloud by the system's own voice. */
  speak: z.boolean(),
  /** Desktop notifications. */
  noticeStage: z.boolean(),
  noticeLost: z.boolean(),
  noticeGuard: z.boolean(),
  noticeSoak: z.boolean(),
  /** Pedal and output off are heard while another program's window is in front. */
  keysAnywhere: z.boolean(),
});
export type AttentionSettings = z.infer<typeof attentionSettings>;

export const USUAL_ATTENTION: AttentionSettings = {
  toneTaken: true,
  toneAlarm: true,
  toneStage: true,
  follow: 'off',
  speak: false,
  noticeStage: true,
  noticeLost: true,
  noticeGuard: true,
  noticeSoak: true,
  keysAnywhere: false,
};
