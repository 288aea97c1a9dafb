// Put into the carried Electron's resources/app: behaves like the official binary's default app,
// loading the project that the command line names.
const { app } = require('electron');
const { readFileSync } = require('node:fs');
const path = require('node:path');
const { pathToFileURL } = require('node:url');

const named = process.argv.slice(1).findIndex((arg) => !arg.startsWith('-'));
if (named < 0) {
  console.error('Name the app to run: electron PATH');
  app.exit(2);
} else {
  const target = path.resolve(process.argv[named + 1]);
  let entry = target;
  if (!/\.[cm]?js$/.test(target)) {
    const about = JSON.parse(readFileSync(path.join(target, 'package.json'), 'utf8'));
    app.setName(about.productName ?? about.name);
    app.setVersion(about.version);
    app.setAppPath(target);
    entry = path.join(target, about.main);
  }
  process.defaultApp = true;
  if (entry.endsWith('.cjs')) {
    // At once: what must be said before the app is ready cannot wait for a module.
    require(entry);
  } else {
    import(pathToFileURL(entry).href).catch((error) => {
      console.error(error);
      app.exit(1);
    });
  }
}
