import { expect as plain } from '@playwright/test';

/** Patient: the demo shares its machine with whatever else runs there. */
export const expect = plain.configure({ timeout: 20_000 });
