import type { JobWhole } from '../../core/job/job.ts';
import { PictureBook } from './picture-book.tsx';

/** The pictures of a job. */
export function JobPictures({ whole }: { readonly whole: JobWhole }) {
  return (
    <PictureBook
      owner={{ jobId: whole.job.id }}
      whole={whole}
      none="No picture yet. A photo before the iron saves a question after it; a thermal one finds the short again."
    />
  );
}
