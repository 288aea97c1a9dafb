const USAGE = `Usage: npm run cli -- VERB ...

  stages FILE.csv     name the stages of a recorded draw
  capture             record from a supply without a window
  pretend             put the pretend supply or meter on a pseudo-terminal or port

Each verb tells its own options with --help.
`;

type Verb = (argv: readonly string[]) => Promise<number>;

// Each verb is loaded only when it is asked for: classifying a file needs no serial port.
const VERBS: Readonly<Record<string, () => Promise<Verb>>> = {
  stages: async () => (await import('./stages.ts')).stages,
  capture: async () => (await import('./capture.ts')).capture,
  pretend: async () => (await import('./pretend.ts')).pretend,
};

// A reader that ends early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});
process.exitCode = await main(process.argv.slice(2));

/** Hands the arguments to their verb and returns the exit code: 2 when there is no such verb. */
export async function main([name = '', ...rest]: readonly string[]): Promise<number> {
  const load = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (load !== undefined) return (await load())(rest);
  if (['--help', '-h', 'help'].includes(name)) {
    process.stdout.write(USAGE);
    return 0;
  }
  process.stderr.write(name === '' ? USAGE : `cli: there is no verb "${name}"\n${USAGE}`);
  return 2;
}
