import { foldText } from './fold-text.ts';

/** A serial number as it is compared: without case and spaces. '' = none given. */
export function serialKey(serialNumber: string): string {
  return foldText(serialNumber).replace(/\s+/gu, '');
}

/** A board model as it is compared, by the same rule; null when the board is unknown. */
export function boardKey(boardModel: string | null): string | null {
  const key = boardModel === null ? '' : serialKey(boardModel);
  return key === '' ? null : key;
}
