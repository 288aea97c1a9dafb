/** A header with its path put before it, and the path that the next unit starts from. */
export interface ResolvedHeader {
  /** Without a leading colon. */
  readonly header: string;
  readonly path: string;
}

/**
 * The header-path rule of SCPI-1999 vol. 1, 6.2.4: a header without a leading colon is put
 * after the path, which is the header before it up to and including its last colon; a leading
 * colon starts again at the root; a common command is read as it is and leaves the path alone.
 */
export function resolveHeader(header: string, path: string): ResolvedHeader {
  if (header.startsWith('*')) return { header, path };
  const full = header.startsWith(':') ? header.slice(1) : path + header;
  return { header: full, path: full.slice(0, full.lastIndexOf(':') + 1) };
}
