import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/** Fails with what WCAG 2.2 AA finds wrong within a part of the page. */
export async function hasNoA11yTrouble(page: Page, within: string): Promise<void> {
  const found = await new AxeBuilder({ page })
    .setLegacyMode()
    .include(within)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}
