import { formatTemperature } from './format-temperature.ts';
import { PICTURE_KIND_WORDS, type Picture, type PictureMark } from './picture.ts';

/** What a mark is called: its name, else its number among the marks. */
export function markName(marks: readonly PictureMark[], mark: PictureMark): string {
  return mark.name.trim() === '' ? `mark ${marks.indexOf(mark) + 1}` : mark.name.trim();
}

/** A mark in words: "C412, hot spot, 87 °C". */
export function describeMark(marks: readonly PictureMark[], mark: PictureMark): string {
  return [
    markName(marks, mark),
    mark.kind === 'hot-spot' ? 'hot spot' : '',
    mark.temperatureC === null ? '' : formatTemperature(mark.temperatureC),
  ]
    .filter(Boolean)
    .join(', ');
}

/** The picture for somebody who cannot see it: kind, caption, rail, marks. */
export function describePicture(
  picture: Pick<Picture, 'kind' | 'caption' | 'rail' | 'marks'>,
): string {
  const { kind, caption, rail, marks } = picture;
  const head = `${PICTURE_KIND_WORDS[kind]} picture${rail === '' ? '' : ` of ${rail}`}`;
  const said = caption.trim() === '' ? '' : `: ${caption.trim()}`;
  const placed = marks.map((mark) => describeMark(marks, mark)).join('; ');
  const stop = /[.!?]$/.test(said) ? '' : '.';
  return `${head}${said}${stop}${placed === '' ? '' : ` Marked: ${placed}.`}`;
}
