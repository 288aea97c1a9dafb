import { describe, expect, it } from 'vitest';
import { footerTemplate } from '../../../electron/record/footer-template.ts';

describe('footerTemplate', () => {
  it('carries the text, the page number and the count', () => {
    const footer = footerTemplate('Job 42 · printed today');
    expect(footer).toContain('<span>Job 42 · printed today</span>');
    expect(footer).toContain('class="pageNumber"');
    expect(footer).toContain('class="totalPages"');
  });

  it('lets no text become markup', () => {
    const footer = footerTemplate(`"><img src=x onerror='a&b'>`);
    expect(footer).toContain('&quot;&gt;&lt;img src=x onerror=&#39;a&amp;b&#39;&gt;');
    expect(footer).not.toContain('<img');
  });
});
