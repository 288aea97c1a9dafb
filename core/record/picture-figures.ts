import type { JobWhole } from '../job/job.ts';
import { describeMark, describePicture, markName } from '../pictures/describe-picture.ts';
import { formatTemperature } from '../pictures/format-temperature.ts';
import { PICTURE_KIND_WORDS, type Picture } from '../pictures/picture.ts';
import type { PictureFigure, PictureGroup } from './record-content.ts';
import type { ShopClock } from './record-time.ts';

/** Longer names would cover what they name; the line below the picture has them whole. */
const MOST_TAG = 14;

/**
 * The pictures of a job for paper: the same before and after side by side, in the order in which
 * they were taken, and the others by themselves.
 */
export function pictureGroups(
  pictures: readonly Picture[],
  whole: JobWhole,
  clock: ShopClock,
): PictureGroup[] {
  const afterOf = (before: Picture) => pictures.find(({ beforeId }) => beforeId === before.id);
  const paired = new Set<string>();
  return pictures.flatMap((picture): PictureGroup[] => {
    if (paired.has(picture.id)) return [];
    const other = pictures.find(({ id }) => id === picture.beforeId) ?? afterOf(picture);
    const pair =
      other === undefined || paired.has(other.id)
        ? [picture]
        : picture.beforeId === other.id
          ? [other, picture]
          : [picture, other];
    for (const { id } of pair) paired.add(id);
    const isPair = pair.length === 2;
    return [
      {
        isPair,
        figures: pair.map((one, at) => {
          const side = isPair ? (['Before', 'After'] as const)[at]! : null;
          return pictureFigure(one, side, whole, clock);
        }),
      },
    ];
  });
}

/** One picture with its marks numbered as they stand on it. */
function pictureFigure(
  picture: Picture,
  side: 'Before' | 'After' | null,
  whole: JobWhole,
  clock: ShopClock,
): PictureFigure {
  const { id, kind, rail, marks, width, height } = picture;
  const words = `${PICTURE_KIND_WORDS[kind]} picture${rail === '' ? '' : ` of ${rail}`}`;
  return {
    id,
    width,
    height,
    alt: describePicture(picture),
    head: side === null ? words : `${side}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`,
    caption: picture.caption.trim(),
    at: clock.dateTime(picture.takenAt),
    tied: tiedTo(picture, whole),
    marks: marks.map((mark, at) => ({
      kind: mark.kind,
      x: mark.x,
      y: mark.y,
      tag: [
        mark.name.trim() === '' ? `${at + 1}` : clip(mark.name.trim()),
        mark.temperatureC === null ? '' : formatTemperature(mark.temperatureC),
      ]
        .filter(Boolean)
        .join(' '),
      words: capital(describeMark(marks, mark), markName(marks, mark)),
    })),
  };
}

const clip = (name: string) =>
  name.length <= MOST_TAG ? name : `${name.slice(0, MOST_TAG - 1).trimEnd()}…`;

/** Only our own first word gets a capital: a name is written as it was typed. */
const capital = (words: string, name: string) =>
  name.startsWith('mark ') ? words.charAt(0).toUpperCase() + words.slice(1) : words;

function tiedTo({ partId, itemId, huntId }: Picture, { parts, items }: JobWhole): string {
  const part = parts.find(({ id }) => id === partId);
  const item = items.find(({ id }) => id === itemId);
  return [
    part === undefined ? '' : `Part ${part.designator}, ${part.action}.`,
    item === undefined ? '' : `Step: ${item.title}.`,
    huntId === null ? '' : 'From the hunt for the short.',
  ]
    .filter(Boolean)
    .join(' ');
}
