import { describe, expect, it } from 'vitest';
import { countPages } from '../../../electron/record/count-pages.ts';

const pdf = (body: string) => new TextEncoder().encode(`%PDF-1.4\n${body}`);

// ISO 32000-1, 7.7.3: a page tree of nodes, each with the number of pages below it.
describe('countPages', () => {
  it('takes the count of the root, which is the largest of a tree', async () => {
    expect(
      await countPages(
        pdf(
          '<</Type /Pages\n/Count 8\n/Kids [1 0 R]>> <</Type /Pages /Kids [2 0 R] /Count 28>> <</Type /Page /Parent 3 0 R>>',
        ),
      ),
    ).toBe(28);
  });

  it('finds it in a large file wherever it stands, also across two pieces', async () => {
    const node = '<</Type /Pages /Kids [2 0 R] /Count 12>>';
    for (const before of [3_000_000, 256 * 1024 - 20, 512 * 1024 - 9 - 15]) {
      expect(await countPages(pdf(`${'x'.repeat(before)}${node}${'x'.repeat(99)}`))).toBe(12);
    }
  });

  it('counts nothing in bytes that are no PDF', async () => {
    expect(await countPages(new Uint8Array())).toBe(0);
    expect(await countPages(new TextEncoder().encode('<</Type /Pages /Count 3>>'))).toBe(0);
  });
});
