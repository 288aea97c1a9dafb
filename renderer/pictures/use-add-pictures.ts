import { useState } from 'react';
import { type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import type { Picture, PictureKind } from '../../core/pictures/picture.ts';
import type { Actions } from '../state/actions.ts';
import { useActions } from '../state/use-desk.ts';
import { pictureCopies } from './picture-copies.ts';
import { sendFile } from './send-file.ts';

export type PictureOwner = { readonly jobId: string } | { readonly boardModel: string };

interface Adding {
  /** How many of how many; null = nothing is being added. */
  readonly under: { readonly done: number; readonly all: number } | null;
  /** What was refused of the last files, each by its name. */
  readonly refused: readonly Trouble[];
}

/** The step or part that new pictures belong to. */
type Tie = Partial<Pick<Picture, 'itemId' | 'partId'>>;

/** Adds files to a job or a board one after the other; a refused one does not stop the others. */
export function useAddPictures(owner: PictureOwner) {
  const { tryAsk } = useActions();
  const [state, setState] = useState<Adding>({ under: null, refused: [] });
  const add = async (
    files: readonly File[],
    kind: PictureKind,
    tie: Tie = {},
  ): Promise<readonly Picture[]> => {
    const added: Picture[] = [];
    const refused: Trouble[] = [];
    for (const [done, file] of files.entries()) {
      setState({ under: { done, all: files.length }, refused });
      try {
        added.push(await addOne(tryAsk, owner, file, { kind, tie }));
      } catch (thrown) {
        refused.push(troubleOf(thrown, file.name));
      }
    }
    setState({ under: null, refused });
    return added;
  };
  return { ...state, add, forgetRefused: () => setState({ under: null, refused: [] }) };
}

async function addOne(
  tryAsk: Actions['tryAsk'],
  owner: PictureOwner,
  file: File,
  { kind, tie }: { readonly kind: PictureKind; readonly tie: Tie },
): Promise<Picture> {
  const name = file.name.slice(0, 200);
  const copies = await pictureCopies(file, name);
  const upload = await sendFile(tryAsk, copies.full);
  const sheet = copies.sheet === null ? null : await sendFile(tryAsk, copies.sheet);
  const small = copies.small === null ? null : await sendFile(tryAsk, copies.small);
  const fields = {
    kind,
    caption: '',
    takenAt: Math.min(Date.now(), file.lastModified || Date.now()),
    rail: '',
    partId: null,
    itemId: null,
    huntId: null,
    beforeId: null,
    ...tie,
  };
  const answer = await tryAsk('addPicture', {
    upload,
    sheet,
    small,
    fileName: name,
    owner,
    fields,
  });
  if (!answer.ok) throw new WakelineError(answer.trouble);
  return answer.value;
}
