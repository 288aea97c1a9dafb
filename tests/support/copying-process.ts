import { openLedger } from '../../electron/ledger/ledger-client.ts';

/**
 * A process of its own that does something with a whole ledger, to be killed in the middle of it.
 * Prints `ready`, then `far WORDS DONE TOTAL` as it goes, `done` at its end. Arguments: ledger file,
 * worker script, what to do, its argument.
 */
const [file, workerEntry, what, given] = process.argv.slice(2);
const ledger = await openLedger({
  path: file!,
  workerEntry: new URL(workerEntry!),
  app: 'test',
  onCopyProgress: ({ words, done, total }) =>
    process.stdout.write(`far ${words} ${done} ${total}\n`),
});
process.stdout.write('ready\n');
const { copies } = ledger;
if (what === 'backup') await copies.backUp(null);
if (what === 'export') await copies.exportTo({ folder: given! });
if (what === 'merge') {
  const { token } = await copies.plan({ source: given! });
  await copies.merge({ token });
}
process.stdout.write('done\n');
await ledger.close();
