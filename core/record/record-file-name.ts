const LONGEST = 80;
/** Refused by file systems: `<>:"/\|?*` by Windows, `/` and NUL everywhere. */
const REFUSED = /[<>:"/\\|?*]/g;
/** Control characters, and the marks that turn text round and could hide an ending. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Cn}\p{Zl}\p{Zp}]/gu;

/**
 * A file name for a job's record that every system takes: `Job 42 SN123 record.pdf`. Text from
 * the job keeps its letters and loses what a file system or a reader would trip over.
 */
export function recordFileName(job: {
  readonly number: number;
  readonly serialNumber: string;
}): string {
  const serial = job.serialNumber
    .normalize('NFC')
    .replace(UNSEEN, ' ')
    .replace(REFUSED, '-')
    .replace(/\s+/g, ' ')
    .replace(/\.{2,}/g, '.')
    .replace(/^[\s.-]+|[\s.-]+$/g, '');
  const kept = [...serial]
    .slice(0, LONGEST - 24)
    .join('')
    .trim();
  return [`Job ${job.number}`, kept, 'record.pdf'].filter((word) => word !== '').join(' ');
}
