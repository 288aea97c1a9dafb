const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/**
 * The footer that Chromium prints on every page: `text` on one side, the page number on the
 * other. Chromium takes this as markup, so `text` is escaped whatever it holds.
 */
export function footerTemplate(text: string): string {
  const safe = text.replace(/[&<>"']/g, (sign) => ESCAPES[sign] ?? '');
  return (
    '<div style="width:100%;margin:0 16mm;padding-top:2mm;border-top:0.5pt solid #b5b5b5;display:flex;' +
    "justify-content:space-between;font:8pt Barlow,'Liberation Sans',Arial,sans-serif;color:#444\">" +
    `<span>${safe}</span>` +
    '<span>Page <span class="pageNumber"></span> of <span class="totalPages"></span></span></div>'
  );
}
