import { Notification } from 'electron';
import type { Notice } from '../../core/attention/notices.ts';

/** Puts a notification on the desktop; a click brings the window. The app makes its own sounds. */
export function showNotice(notice: Notice, onClick: () => void): void {
  if (!Notification.isSupported()) return;
  const shown = new Notification({
    title: notice.title,
    body: notice.body,
    silent: true,
    urgency: notice.about === 'stage' ? 'normal' : 'critical',
  });
  shown.on('click', onClick);
  shown.show();
}
