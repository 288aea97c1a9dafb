import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

const root = path.resolve(import.meta.dirname, '..');
const files = execFileSync('git', ['ls-files', '-co', '--exclude-standard'], {
  cwd: root,
  encoding: 'utf8',
})
  .split('\n')
  .filter((name) => name !== '' && existsSync(path.join(root, name)));
const sources = files.filter((name) => /\.(ts|tsx|mjs|cjs)$/.test(name));
const product = sources.filter((name) => /^(core|electron|renderer|migrations)\//.test(name));
const text = (name: string) => readFileSync(path.join(root, name), 'utf8');

/** What each file imports, as paths from the root; packages keep their bare name. */
function imports(name: string): readonly string[] {
  const found = text(name).matchAll(
    /^(?:import|export)\b[^;'`=]*?\bfrom\s+'([^']+)';|^import\s+'([^']+)';|\bimport\(\s*'([^']+)'/gm,
  );
  return [...found].map(([, ...named]) => {
    const to = named.find((one) => one !== undefined) ?? '';
    return to.startsWith('.') ? path.posix.join(path.posix.dirname(name), to) : to;
  });
}

function breaches(
  from: RegExp,
  isForbidden: (to: string, name: string) => boolean,
): readonly string[] {
  return product
    .filter((name) => from.test(name))
    .flatMap((name) =>
      imports(name)
        .filter((to) => isForbidden(to, name))
        .map((to) => `${name} -> ${to}`),
    );
}

describe('the import law', () => {
  it('keeps core free of Node, Electron, React and everything outside core', () => {
    const allowed = /^(zod|d3-scale|d3-shape|crc-32|csv-parse|ml-matrix|simple-statistics|elkjs)/;
    expect(breaches(/^core\//, (to) => !to.startsWith('core/') && !allowed.test(to))).toEqual([]);
  });

  it('keeps the window away from electron/, Node and native packages', () => {
    const forbidden = /^(electron|migrations|node:|better-sqlite3|kysely|serialport)/;
    expect(breaches(/^renderer\//, (to) => forbidden.test(to))).toEqual([]);
  });

  it('lets data flow one way through core', () => {
    const order = ['trace', 'stages', 'match', 'bands'];
    for (const [at, room] of order.entries()) {
      const later = order.slice(at + 1).map((next) => `core/${next}/`);
      expect(
        breaches(new RegExp(`^core/${room}/`), (to) => later.some((next) => to.startsWith(next))),
      ).toEqual([]);
    }
    expect(
      breaches(/^core\/scpi\//, (to) => /^core\/(instruments|bench-model|guard|stages)\//.test(to)),
    ).toEqual([]);
    expect(breaches(/^core\/instruments\//, (to) => to.startsWith('core/bench-model/'))).toEqual(
      [],
    );
  });

  it('lets SQL out of no file but the ledger and the migrations', () => {
    const outside = (to: string, name: string) =>
      /^(kysely|better-sqlite3)/.test(to) && !/^(electron\/ledger|migrations)\//.test(name);
    expect(breaches(/./, outside)).toEqual([]);
  });

  it('lets only the call register touch ipcMain', () => {
    const users = product.filter((name) => /\bipcMain\b/.test(text(name)));
    expect(users).toEqual(['electron/ipc/register-calls.ts']);
  });
});

describe('names', () => {
  it('writes file names in kebab-case', () => {
    const odd = sources.filter((name) => !/^[a-z0-9_./-]+$/.test(name) && !name.startsWith('.'));
    expect(odd).toEqual([]);
  });

  it('never puts markup into a page by hand', () => {
    const makers = product.filter(
      (name) =>
        name.startsWith('renderer/') &&
        /dangerouslySetInnerHTML|\.innerHTML|insertAdjacentHTML|document\.write/.test(text(name)),
    );
    expect(makers).toEqual([]);
  });

  it('throws nothing but named failures', () => {
    const bare = product.filter(
      (name) =>
        name !== 'core/errors.ts' && /throw new (Error|TypeError|RangeError)\(/.test(text(name)),
    );
    expect(bare).toEqual([]);
  });

  it('keeps the top level to what the design names and tools force', () => {
    const known = new Set(
      (
        'README.md DEVELOPERS.md CHANGELOG.md package.json package-lock.json tsconfig.json electron ' +
        'renderer core migrations tests sample-data .ci .gitignore .npmrc biome.json ' +
        'vitest.config.ts playwright.config.ts'
      ).split(' '),
    );
    const top = new Set(files.map((name) => name.split('/')[0]!));
    expect([...top].filter((name) => !known.has(name))).toEqual([]);
  });
});
