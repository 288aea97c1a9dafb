import '@fontsource/barlow/400.css';
import '@fontsource/barlow/500.css';
import '@fontsource/barlow/600.css';
import './tag.css';
import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';
import type { RecordBridge } from '../../core/record/record-bridge.ts';
import type { BagTag } from '../../core/tags/bag-tag.ts';
import { TagPage } from './tag-page.tsx';

/** The print pages share one bridge; this one is handed a tag. */
const bridge = window.wakelineRecord as unknown as Omit<RecordBridge, 'take'> & {
  readonly take: () => Promise<BagTag>;
};

async function draw(): Promise<void> {
  const tag = await bridge.take();
  document.title = `${tag.title}, bag tag`;
  const root = createRoot(document.getElementById('tag')!, {
    onUncaughtError: (error) => bridge.drawn(String(error)),
  });
  flushSync(() => root.render(<TagPage tag={tag} />));
  await Promise.all(['400', '500', '600'].map((w) => document.fonts.load(`${w} 12px Barlow`)));
  await document.fonts.ready;
  bridge.drawn(null);
}

draw().catch((error: unknown) => bridge.drawn(String(error)));
