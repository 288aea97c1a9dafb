import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { type WatchNote, watchNote } from './watch-lines.ts';

/** The file in the data folder in which the watcher says what it did. */
export const watchNoteFile = (dataFolder: string) => path.join(dataFolder, 'watcher-note.json');

/** Writes the note, whole or not at all. */
export function writeWatchNote(file: string, note: WatchNote): void {
  writeFileSync(`${file}.new`, `${JSON.stringify(note, null, 2)}\n`);
  renameSync(`${file}.new`, file);
}

/** What the watcher noted since the last start; null = nothing. */
export function readWatchNote(file: string): WatchNote | null {
  try {
    return watchNote.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    return null;
  }
}

export function dropWatchNote(file: string): void {
  rmSync(file, { force: true });
}
