import { PIECE_BYTES } from '../../core/contract/picture-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Actions } from '../state/actions.ts';

/** Sends bytes to the ledger piece by piece; answers the name of the upload. Throws its refusal. */
export async function sendFile(tryAsk: Actions['tryAsk'], bytes: Uint8Array): Promise<string> {
  const upload = crypto.randomUUID();
  for (let at = 0; at < bytes.length; at += PIECE_BYTES) {
    const piece = bytes.slice(at, at + PIECE_BYTES);
    const answer = await tryAsk('sendPicturePiece', { upload, at, bytes: piece });
    if (!answer.ok) throw new WakelineError(answer.trouble);
  }
  return upload;
}
