import { z } from 'zod';
import { type AttentionSettings, attentionSettings } from '../attention/attention-settings.ts';
import { answers } from './call.ts';

/** Calls about what calls a person's attention, and the small window that stays on top. */
export const attentionCalls = {
  attention: answers<AttentionSettings>()(z.object({})),
  setAttention: answers<AttentionSettings>()(attentionSettings),
  /** Shows or hides the readout window; answers whether it is shown. Null only asks. */
  readout: answers<{ isShown: boolean }>()(z.object({ show: z.boolean().nullable() })),
} as const;
