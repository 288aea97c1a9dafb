/** What a picture shows, by how it was taken. */
export const PICTURE_KINDS = ['thermal', 'microscope', 'board', 'part', 'other'] as const;
export type PictureKind = (typeof PICTURE_KINDS)[number];

export const PICTURE_KIND_WORDS: Readonly<Record<PictureKind, string>> = {
  thermal: 'Thermal',
  microscope: 'Microscope',
  board: 'Board',
  part: 'Part',
  other: 'Other',
};

export const PICTURE_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const;
export type PictureType = (typeof PICTURE_TYPES)[number];

/** A place on a picture that somebody put a mark on. */
export interface PictureMark {
  readonly id: string;
  readonly kind: 'hot-spot' | 'point';
  /** A designator, a test point, a word; '' = only its number. */
  readonly name: string;
  /** Shares of the width and height as shown, 0 to 1, from the top left corner. */
  readonly x: number;
  readonly y: number;
  /** Degrees Celsius as somebody read them; null = not told. */
  readonly temperatureC: number | null;
}

/** What can be told of a picture. */
export interface PictureFields {
  readonly kind: PictureKind;
  readonly caption: string;
  /** UTC ms. */
  readonly takenAt: number;
  /** '' = tied to no rail. */
  readonly rail: string;
  readonly partId: string | null;
  readonly itemId: string | null;
  readonly huntId: string | null;
  /** The picture of the same thing before the repair: the two are a pair. */
  readonly beforeId: string | null;
}

/** A picture of a job, or of a board model when `jobId` is null. */
export interface Picture extends PictureFields {
  readonly id: string;
  readonly jobId: string | null;
  readonly boardModel: string | null;
  readonly addedAt: number;
  /** UTC ms when it went to the bin; null = it is not there. */
  readonly binnedAt: number | null;
  /** SHA-256 of the kept bytes. */
  readonly hash: string;
  readonly type: PictureType;
  readonly bytes: number;
  /** Pixels as shown: turned the way it was taken. */
  readonly width: number;
  readonly height: number;
  /** In the order in which they were put. */
  readonly marks: readonly PictureMark[];
}

/** How large a picture is wanted: a thumbnail, the window and paper, or as it was kept. */
export const PICTURE_SIZES = ['small', 'sheet', 'full'] as const;
export type PictureSize = (typeof PICTURE_SIZES)[number];

/** Longest side of the smaller copies, in pixels. */
export const SMALL_SIDE = 320;
export const SHEET_SIDE = 1600;
