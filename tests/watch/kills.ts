import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { killAndHang, type Outcome } from './kill-and-hang.ts';

/** `node tests/watch/kills.ts [--kills 100] [--hangs 20] [--seed 1] [--json FILE]` */
const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '100' },
    hangs: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    json: { type: 'string' },
  },
});

const outcomes = await killAndHang({
  kills: Number(values.kills),
  hangs: Number(values.hangs),
  seed: Number(values.seed),
  say: (line) => console.log(line),
});

const at = (sorted: readonly number[], share: number) =>
  sorted.length === 0 ? Number.NaN : sorted[Math.ceil(share * sorted.length) - 1]!;

function figures(name: string, of: readonly Outcome[]): string {
  const powered = of.filter(({ wasOn }) => wasOn);
  const times = powered.map(({ offMs }) => offMs ?? Number.POSITIVE_INFINITY).sort((a, b) => a - b);
  const lost = of.flatMap(({ lostS }) => (lostS === null ? [] : [lostS])).sort((a, b) => a - b);
  const broken = of.filter(({ integrity }) => integrity !== 'ok').length;
  const late = times.filter((ms) => ms > 1000).length;
  return (
    `${name}: ${of.length}, power on in ${powered.length}; off after ` +
    `${at(times, 0.5).toFixed(0)} / ${at(times, 0.99).toFixed(0)} / ${at(times, 1).toFixed(0)} ms ` +
    `(p50/p99/max), ${late} later than 1 s; samples lost at most ` +
    `${lost.length === 0 ? '-' : at(lost, 1).toFixed(2)} s; ${broken} damaged ledgers`
  );
}

const isHang = ({ kind }: Outcome) => kind === 'stopped' || kind === 'blocked';
console.log(
  figures(
    'kills',
    outcomes.filter((one) => !isHang(one)),
  ),
);
console.log(figures('hangs', outcomes.filter(isHang)));
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(outcomes, null, 2)}\n`);
const isGood = (one: Outcome) =>
  one.offMs !== null && one.offMs <= 1000 && one.integrity === 'ok' && (one.lostS ?? 0) <= 1;
process.exit(outcomes.every(isGood) ? 0 : 1);
