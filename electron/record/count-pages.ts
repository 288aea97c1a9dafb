/**
 * Pages of a PDF as Chromium writes it: the root of its page tree, uncompressed, counts them all
 * (ISO 32000-1, 7.7.3.2). 0 when the bytes are not such a PDF.
 */
export function countPages(pdf: Uint8Array): number {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString('latin1');
  if (!text.startsWith('%PDF-')) return 0;
  let pages = 0;
  for (const node of text.matchAll(/<<[^<>]*\/Type\s*\/Pages\b[^<>]*>>/g)) {
    const count = /\/Count\s+(\d+)/.exec(node[0])?.[1];
    pages = Math.max(pages, Number(count ?? 0));
  }
  return pages;
}
