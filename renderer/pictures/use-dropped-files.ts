import { useEffect, useRef, useState } from 'react';

/**
 * Files dropped on the window or pasted into it while the caller is on screen, except over an open
 * dialog. Answers whether files are held over the window. Text that is pasted goes its usual way.
 */
export function useDroppedFiles(onFiles: (files: readonly File[]) => void): boolean {
  const latest = useRef(onFiles);
  latest.current = onFiles;
  const [isOver, setOver] = useState(false);
  useEffect(() => {
    const isBusy = () => document.querySelector('dialog[open]') !== null;
    const take = (event: Event, data: DataTransfer | null): void => {
      const files = [...(data?.files ?? [])];
      if (files.length === 0 || event.defaultPrevented || isBusy()) return;
      event.preventDefault();
      latest.current(files);
    };
    const onPaste = (event: ClipboardEvent): void => {
      // A spreadsheet puts a picture of its cells beside their text: there the text is meant.
      const isText = event.clipboardData?.types.includes('text/plain') === true;
      if (!isText) take(event, event.clipboardData);
    };
    const onDrop = (event: DragEvent): void => {
      setOver(false);
      take(event, event.dataTransfer);
    };
    const onOver = (event: DragEvent): void => {
      if (event.dataTransfer?.types.includes('Files') !== true || isBusy()) return;
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent): void => {
      if (event.relatedTarget === null) setOver(false);
    };
    window.addEventListener('paste', onPaste);
    window.addEventListener('drop', onDrop);
    window.addEventListener('dragover', onOver);
    window.addEventListener('dragleave', onLeave);
    return () => {
      window.removeEventListener('paste', onPaste);
      window.removeEventListener('drop', onDrop);
      window.removeEventListener('dragover', onOver);
      window.removeEventListener('dragleave', onLeave);
    };
  }, []);
  return isOver;
}
