import { useCallback, useEffect, useState } from 'react';
import type { Picture } from '../../core/pictures/picture.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import type { PictureOwner } from './use-add-pictures.ts';

/** The pictures of a job or a board, read again when a job changed; null until they are there. */
export function usePictures(owner: PictureOwner): {
  readonly pictures: readonly Picture[] | null;
  readonly read: () => Promise<void>;
} {
  const version = useDeskState((state) => state.jobsVersion);
  const { ask } = useActions();
  const [pictures, setPictures] = useState<readonly Picture[] | null>(null);
  const jobId = 'jobId' in owner ? owner.jobId : null;
  const boardModel = 'boardModel' in owner ? owner.boardModel : null;
  const read = useCallback(async () => {
    const found =
      jobId !== null
        ? await ask('listPictures', { jobId })
        : await ask('listBoardPictures', { boardModel: boardModel ?? '' });
    setPictures((before) => found ?? before ?? []);
  }, [jobId, boardModel, ask]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job is read again
  useEffect(() => void read(), [read, version]);
  return { pictures, read };
}
