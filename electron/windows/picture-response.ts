import { z } from 'zod';
import { WakelineError } from '../../core/errors.ts';
import { PICTURE_SIZES, PICTURE_TYPES } from '../../core/pictures/picture.ts';
import type { Ledger } from '../ledger/ledger-client.ts';

/** `/pictures/<id>/<size>` and nothing else: an id is looked up, never made into a path. */
const ASKED = z.tuple([z.uuid(), z.enum(PICTURE_SIZES)]);
const PREFIX = '/pictures/';
const PIECE = 256 * 1024;

/**
 * Answers a request of a page for a picture; null when the path is not about pictures. The bytes
 * come from the ledger's thread checked against their hash, and go on in pieces, so that main never
 * stops over a large one. They are not cached: what is deleted must be gone.
 */
export async function pictureResponse(
  pathname: string,
  ledger: Pick<Ledger, 'pictures'> | null,
): Promise<Response | null> {
  if (!pathname.startsWith(PREFIX)) return null;
  const asked = ASKED.safeParse(pathname.slice(PREFIX.length).split('/'));
  if (!asked.success || ledger === null) return refusal(404, 'Not here');
  const [id, size] = asked.data;
  try {
    const { type, bytes } = await ledger.pictures.openPicture({ id, size });
    // What the ledger says is not trusted to be an image: only these are ever drawn.
    if (!PICTURE_TYPES.some((known) => known === type)) return refusal(404, 'Not here');
    return new Response(inPieces(bytes), {
      headers: {
        'content-type': type,
        'content-length': String(bytes.length),
        'cache-control': 'no-store',
        'x-content-type-options': 'nosniff',
        'content-security-policy': "default-src 'none'",
      },
    });
  } catch (thrown) {
    const isLost = thrown instanceof WakelineError && thrown.trouble.code === 'picture-lost';
    return refusal(isLost ? 410 : 404, isLost ? 'Lost' : 'Not here');
  }
}

const refusal = (status: number, words: string) =>
  new Response(words, { status, headers: { 'cache-control': 'no-store' } });

function inPieces(bytes: Uint8Array<ArrayBuffer>): ReadableStream<Uint8Array> {
  let at = 0;
  return new ReadableStream({
    pull(controller) {
      if (at >= bytes.length) return controller.close();
      controller.enqueue(bytes.subarray(at, at + PIECE));
      at += PIECE;
    },
  });
}
