import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Node volts of a circuit at rest (the operating point), solved by ngspice. Node 0 is ground. */
export function solveNetwork(
  lines: readonly string[],
  nodes: readonly string[],
): ReadonlyMap<string, number> {
  const deck = [
    'circuit at rest',
    ...lines,
    '.control',
    'op',
    'set numdgt=12',
    ...nodes.map((node) => `print v(${node})`),
    'quit 0',
    '.endc',
    '.end',
  ].join('\n');
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-spice-'));
  try {
    const file = path.join(folder, 'net.cir');
    writeFileSync(file, deck);
    const out = execFileSync('ngspice', ['-b', file], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    const found = [...out.matchAll(/v\((\w+)\) = (\S+)/g)];
    return new Map(found.map(([, node = '', volts]) => [node.toLowerCase(), Number(volts)]));
  } finally {
    rmSync(folder, { recursive: true });
  }
}
