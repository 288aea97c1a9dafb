const { app, BrowserWindow } = require('electron');
app
  .whenReady()
  .then(() => new BrowserWindow({ show: true }).loadURL('data:text/html,<p>empty</p>'));
