import { describe, expect, it } from 'vitest';
import { countPages } from '../../../electron/record/count-pages.ts';

const pdf = (body: string) => new TextEncoder().encode(`%PDF-1.4\n${body}`);

// ISO 32000-1, 7.7.3: a page tree of nodes, each with the number of pages below it.
describe('countPages', () => {
  it('takes the count of the root, which is the largest of a tree', () => {
    expect(
      countPages(
        pdf(
          '<</Type /Pages\n/Count 8\n/Kids [1 0 R]>> <</Type /Pages /Kids [2 0 R] /Count 28>> <</Type /Page /Parent 3 0 R>>',
        ),
      ),
    ).toBe(28);
  });

  it('counts nothing in bytes that are no PDF', () => {
    expect(countPages(new Uint8Array())).toBe(0);
    expect(countPages(new TextEncoder().encode('<</Type /Pages /Count 3>>'))).toBe(0);
  });
});
