import { expect, test } from '@playwright/test';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';

let launched: LaunchedApp;
test.beforeAll(async () => {
  launched = await launchApp();
});
test.afterAll(async () => {
  await launched.close();
});

test('gives the page no Node, no Electron and no way to reach them', async () => {
  const seen = await launched.page.evaluate(() => ({
    require: typeof (globalThis as Record<string, unknown>).require,
    process: typeof (globalThis as Record<string, unknown>).process,
    module: typeof (globalThis as Record<string, unknown>).module,
    bridge: Object.isFrozen((globalThis as unknown as { wakeline: object }).wakeline),
  }));
  expect(seen).toMatchObject({ require: 'undefined', process: 'undefined', module: 'undefined' });
  const preferences = await launched.app.evaluate(({ BrowserWindow }) => {
    const contents = BrowserWindow.getAllWindows()[0]!.webContents as unknown as {
      getLastWebPreferences(): Record<string, unknown>;
    };
    const { contextIsolation, sandbox, nodeIntegration } = contents.getLastWebPreferences();
    return { contextIsolation, sandbox, nodeIntegration };
  });
  expect(preferences).toEqual({ contextIsolation: true, sandbox: true, nodeIntegration: false });
});

test('refuses to navigate, to open windows and to fetch anything from elsewhere', async () => {
  const { page, app } = launched;
  const before = page.url();
  await page.evaluate(() => {
    window.location.href = 'https://example.org/';
  });
  await page.waitForTimeout(300);
  expect(page.url()).toBe(before);
  const opened = await page.evaluate(() => window.open('https://example.org/') === null);
  expect(opened).toBe(true);
  expect(app.windows()).toHaveLength(1);
  const fetched = await page.evaluate(() =>
    fetch('https://example.org/').then(
      () => 'fetched',
      () => 'refused',
    ),
  );
  expect(fetched).toBe('refused');
});

test('runs no script that is not a file of the app', async () => {
  const ran = await launched.page.evaluate(async () => {
    const script = document.createElement('script');
    script.textContent = 'window.__ran = true';
    document.body.append(script);
    const holder = document.createElement('div');
    holder.innerHTML = '<img src="x:" onerror="window.__ran = true">';
    document.body.append(holder);
    await new Promise((resolve) => setTimeout(resolve, 200));
    script.remove();
    holder.remove();
    return (window as unknown as Record<string, unknown>).__ran === true;
  });
  expect(ran).toBe(false);
});

test('grants no permission', async () => {
  const answers = await launched.page.evaluate(async () => ({
    notification: await Notification.requestPermission(),
    camera: await navigator.mediaDevices?.getUserMedia({ video: true }).then(
      () => 'granted',
      () => 'refused',
    ),
    clipboard: await navigator.clipboard.readText().then(
      () => 'granted',
      () => 'refused',
    ),
  }));
  expect(answers.notification).not.toBe('granted');
  expect(answers.camera).not.toBe('granted');
  expect(answers.clipboard).toBe('refused');
});

test('answers a call with wrong arguments by saying which, and changes nothing', async () => {
  const answered = await launched.page.evaluate(() => {
    const { wakeline } = globalThis as unknown as {
      wakeline: Record<string, (args: unknown) => Promise<unknown>>;
    };
    return Promise.all([
      wakeline.setVolts!({ volts: 'twelve', confirmed: false }),
      wakeline.setVolts!({ volts: Number.POSITIVE_INFINITY, confirmed: true }),
      wakeline.readJob!({ id: "'; drop table jobs; --" }),
      wakeline.hands!({ do: 'burn' }),
    ]);
  });
  for (const answer of answered) {
    expect(answer).toMatchObject({ ok: false, trouble: { code: 'bad-input' } });
  }
});

test('hears no call from a frame that is not its own top page', async () => {
  const { page } = launched;
  const inFrame = await page.evaluate(async () => {
    const frame = document.createElement('iframe');
    frame.srcdoc = '<p>note</p>';
    document.body.append(frame);
    await new Promise((resolve) => setTimeout(resolve, 300));
    const has = typeof (frame.contentWindow as unknown as { wakeline?: unknown })?.wakeline;
    frame.remove();
    return has;
  });
  expect(inFrame).toBe('undefined');
});

test('refuses the call of a second window that loads the same page', async () => {
  const answer = await launched.app.evaluate(async ({ app, BrowserWindow }) => {
    const own = BrowserWindow.getAllWindows()[0]!;
    const other = new BrowserWindow({
      show: false,
      webPreferences: {
        preload: `${app.getAppPath()}/out/preload.cjs`,
        contextIsolation: true,
        sandbox: true,
      },
    });
    await other.loadURL(own.webContents.getURL());
    const said = await other.webContents.executeJavaScript('window.wakeline.benchState({})');
    other.destroy();
    return said;
  });
  expect(answer).toMatchObject({ ok: false, trouble: { code: 'refused-sender' } });
});
