import { PLAIN_COST, type ProbePoint } from './board-model.ts';

export type ReadPoints =
  | { readonly ok: true; readonly points: readonly ProbePoint[] }
  | { readonly ok: false; readonly at: number; readonly what: string; readonly todo: string };

const ROLE_WORDS: Readonly<Record<string, ProbePoint['role']>> = {
  out: 'output',
  in: 'input',
  en: 'enable',
};
const SHORT: Readonly<Record<ProbePoint['role'], string>> = {
  output: 'out',
  input: 'in',
  enable: 'en',
};
const TODO =
  'Type points like "C71; in F2.1:2; en U7.3:3@3.3": place, effort after a colon, volts after @.';

/**
 * Reads where a rail can be touched: places between semicolons, each with `in` or `en` before it when
 * it is not the output, effort after a colon (1 plain reach, 3 under a shield, `no` out of reach),
 * volts after an @.
 */
export function readPoints(text: string): ReadPoints {
  const points: ProbePoint[] = [];
  for (const match of text.matchAll(/[^;]+/g)) {
    const entry = match[0].trim();
    const at = match.index + match[0].indexOf(entry);
    if (entry === '') continue;
    const parts =
      /^(?:(out|in|en)\s+)?([^:@]+?)\s*(?::\s*(no|\d+(?:\.\d+)?))?\s*(?:@\s*([-\u2212]?\d+(?:\.\d+)?)\s*V?)?$/i.exec(
        entry,
      );
    if (parts === null) return { ok: false, at, what: `"${entry}" is no probe point`, todo: TODO };
    const [, role = 'out', name = '', cost, volts] = parts;
    const effort = cost === undefined ? PLAIN_COST : cost === 'no' ? null : Number(cost);
    if (effort !== null && !(effort > 0)) {
      return { ok: false, at, what: `An effort of ${cost} is no effort`, todo: TODO };
    }
    points.push({
      name,
      role: ROLE_WORDS[role.toLowerCase()] ?? 'output',
      cost: effort,
      volts: volts === undefined ? null : Number(volts.replace('\u2212', '-')),
    });
  }
  return { ok: true, points };
}

/** Writes points the way `readPoints` reads them. */
export function writePoints(points: readonly ProbePoint[]): string {
  return points
    .map(({ name, role, cost, volts }) => {
      const before = role === 'output' ? '' : `${SHORT[role]} `;
      const effort = cost === null ? ':no' : cost === PLAIN_COST ? '' : `:${cost}`;
      return `${before}${name}${effort}${volts === null ? '' : `@${volts}`}`;
    })
    .join('; ');
}
