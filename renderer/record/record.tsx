import '@fontsource/barlow/400.css';
import '@fontsource/barlow/500.css';
import '@fontsource/barlow/600.css';
import '../styles/tokens.css';
import './record.css';
import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';
import type { RecordBridge } from '../../core/record/record-bridge.ts';
import { RecordPage } from './record-page.tsx';

declare global {
  interface Window {
    readonly wakelineRecord: RecordBridge;
  }
}

/** Fonts load only once something uses them; a hidden window may print before that. */
const FACES = ['400', '500', '600'].map((weight) => `${weight} 12px 'Barlow Record'`);

async function draw(): Promise<void> {
  const record = await window.wakelineRecord.take();
  document.title = `${record.title}, job record`;
  const root = createRoot(document.getElementById('record')!, {
    onUncaughtError: (error) => window.wakelineRecord.drawn(String(error)),
  });
  flushSync(() => root.render(<RecordPage record={record} />));
  await Promise.all(FACES.map((face) => document.fonts.load(face)));
  await document.fonts.ready;
  await settled([...document.images]);
  window.wakelineRecord.drawn(null);
}

/** Waits until every picture is opened, or has said that it is lost and made room for the words. */
async function settled(images: readonly HTMLImageElement[]): Promise<void> {
  await Promise.all(images.map((image) => image.decode().catch(() => {})));
  // A hidden window draws no frames that could be waited for; this lets React write its words.
  await new Promise((drawn) => setTimeout(drawn, 50));
}

draw().catch((error: unknown) => window.wakelineRecord.drawn(String(error)));
