/** Where the supply's leads are when their tips are clipped to each other. */
export const LEADS_TOGETHER = 'each other';
