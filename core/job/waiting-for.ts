/** What a waiting job may wait for. */
export const WAITING_FOR = ['approval', 'parts', 'customer'] as const;
export type WaitingFor = (typeof WAITING_FOR)[number];

/** What it waits for in a sentence. */
export const WAITING_WORDS: Readonly<Record<WaitingFor, string>> = {
  approval: 'approval',
  parts: 'parts',
  customer: 'the customer',
};
