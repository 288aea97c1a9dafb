import { app, dialog } from 'electron';
import type { Trouble } from '../../core/errors.ts';

/** The app cannot start: says what, where and what to do, on screen and on the terminal, then ends. */
export function sayAndQuit(trouble: Trouble): void {
  console.error(`${trouble.what} (${trouble.where}). ${trouble.todo}`);
  dialog.showErrorBox(
    'Wakeline cannot start',
    `${trouble.what}\n\n${trouble.where}\n\n${trouble.todo}`,
  );
  app.exit(1);
}
