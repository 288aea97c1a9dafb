import { createFakeBridge } from '../support/fake-bridge.ts';
import { scenes } from '../support/fake-scenes.ts';

/**
 * The window in a browser on a fake bridge, one scene a query: `?scene=limited&theme=dark`. For
 * looking only: `vite /path/to/checkout`, then open this page.
 */
const query = new URLSearchParams(location.search);
const scene = scenes[query.get('scene') ?? 'live'] ?? scenes.live!;
localStorage.setItem('wakeline.theme', query.get('theme') ?? 'light');
const bridge = createFakeBridge(scene());
Object.assign(window, { wakeline: bridge });
if (query.get('play') !== 'no') setInterval(() => bridge.play(0.1), 100);
await import('../../renderer/main.tsx');
