/** A file of a picture, named by what is in it. */
export interface PictureFileRow {
  /** SHA-256 of its bytes, lower-case hex. */
  hash: string;
  type: string;
  bytes: number;
  /** As shown: turned the way it was taken. */
  width: number;
  height: number;
}

export interface PictureRow {
  id: string;
  /** Null for a picture of a board model. */
  job_id: string | null;
  board_model: string | null;
  board_key: string | null;
  kind: string;
  caption: string;
  rail: string;
  part_id: string | null;
  item_id: string | null;
  hunt_id: string | null;
  /** The picture that shows the same before. */
  before_id: string | null;
  taken_at: number;
  added_at: number;
  binned_at: number | null;
  hash: string;
  /** The same at a thumbnail's size, and at the size of the window and of paper. */
  small_hash: string | null;
  sheet_hash: string | null;
}

export interface PictureMarkRow {
  id: string;
  picture_id: string;
  position: number;
  kind: string;
  name: string;
  /** Shares of the picture's width and height as shown, from its top left corner. */
  x: number;
  y: number;
  temperature_c: number | null;
}

export interface PictureTables {
  picture_files: PictureFileRow;
  pictures: PictureRow;
  picture_marks: PictureMarkRow;
}
