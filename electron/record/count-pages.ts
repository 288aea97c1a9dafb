import { setImmediate } from 'node:timers/promises';

/** Main reads instruments between two of these. */
const PIECE_BYTES = 256 * 1024;
/** Longer than a node of a page tree of thousands of pages is in front of its count. */
const OVERLAP_BYTES = 16 * 1024;

/**
 * Pages of a PDF as Chromium writes it: the root of its page tree, uncompressed, counts them all
 * (ISO 32000-1, 7.7.3.2). 0 when the bytes are not such a PDF. Looks at a large one piece by piece
 * and lets others have their turn in between.
 */
export async function countPages(pdf: Uint8Array): Promise<number> {
  const bytes = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength);
  if (bytes.toString('latin1', 0, 5) !== '%PDF-') return 0;
  let pages = 0;
  for (let at = 0; at < bytes.length; at += PIECE_BYTES) {
    const text = bytes.toString('latin1', at, at + PIECE_BYTES + OVERLAP_BYTES);
    for (const node of text.matchAll(/<<[^<>]*\/Type\s*\/Pages\b[^<>]*>>/g)) {
      const count = /\/Count\s+(\d+)/.exec(node[0])?.[1];
      pages = Math.max(pages, Number(count ?? 0));
    }
    await setImmediate();
  }
  return pages;
}
