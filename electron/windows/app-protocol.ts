import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { protocol } from 'electron';

/** The app's own scheme: pages come from `out/renderer` and from nowhere else. */
export const APP_SCHEME = 'wakeline';
export const APP_ORIGIN = `${APP_SCHEME}://app`;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
};

const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Must run before the app is ready: makes the scheme a secure, standard origin. */
export function declareAppScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: APP_SCHEME, privileges: { standard: true, secure: true } },
  ]);
}

/**
 * Serves files below `folder` under a strict content security policy; anything else is 404.
 * `answer` is asked first, for what does not lie there.
 */
export function serveApp(
  folder: string,
  answer: (pathname: string) => Promise<Response | null> = async () => null,
): void {
  protocol.handle(APP_SCHEME, async (request) => {
    const { pathname } = new URL(request.url);
    const answered = await answer(pathname);
    if (answered !== null) return answered;
    const asked = path.normalize(path.join(folder, decodeURIComponent(pathname)));
    const type = TYPES[path.extname(asked)];
    if (!asked.startsWith(folder + path.sep) || type === undefined) {
      return new Response('Not here', { status: 404 });
    }
    try {
      return new Response(new Uint8Array(await readFile(asked)), {
        headers: {
          'content-type': type,
          'content-security-policy': POLICY,
          'x-content-type-options': 'nosniff',
        },
      });
    } catch {
      return new Response('Not here', { status: 404 });
    }
  });
}
