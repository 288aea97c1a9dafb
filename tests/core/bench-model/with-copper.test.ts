import { describe, expect, it } from 'vitest';
import { BOARD_SHELF } from '../../../core/bench-model/board-shelf.ts';
import {
  PLOVER_BUS_COPPER,
  TERN_INPUT_COPPER,
  TERN_MAIN_COPPER,
} from '../../../core/bench-model/boards/copper-plans.ts';
import { LEADS_TOGETHER } from '../../../core/bench-model/leads-together.ts';
import { createPretendBench } from '../../../core/bench-model/pretend-bench.ts';
import { STAGE_BUILD } from '../../../core/bench-model/supply-stage.ts';
import type { CopperPlan } from '../../../core/bench-model/with-copper.ts';
import type { WakelineError } from '../../../core/errors.ts';
import type { ByteDevice } from '../../../core/scpi/byte-link.ts';
import type { HuntPoint } from '../../../core/shorts/hunt.ts';
import { huntGradient } from '../../../core/shorts/hunt-gradient.ts';
import { hasNgspice } from '../../support/ngspice.ts';
import { solveNetwork } from '../../support/solve-network.ts';

function desk(noiseScale: number) {
  let nowS = 0;
  const bench = createPretendBench({ seed: 3, nowS: () => nowS, noiseScale });
  const ask = (device: ByteDevice, text: string) => {
    let heard = '';
    const stop = device.onBytes((bytes) => {
      heard += String.fromCharCode(...bytes);
    });
    device.receive(Uint8Array.from(`${text}\n`, (c) => c.charCodeAt(0)));
    stop();
    return Number(heard.trim());
  };
  return {
    bench,
    supply: (text: string) => ask(bench.supply, text),
    /** Volts at a point once the meter has settled. */
    volts(point: string) {
      bench.probe(point);
      nowS += 0.5;
      bench.advanceTo(nowS);
      return ask(bench.meter, 'MEAS:VOLT:DC?');
    },
    wait(s: number) {
      nowS += s;
      bench.advanceTo(nowS);
    },
  };
}

const places = ({ net, tracks }: CopperPlan) => [
  ...new Set([net, ...tracks.flatMap(({ from, to }) => [from, to])]),
];

const CASES = [
  { key: 'tern-main-short', copper: TERN_MAIN_COPPER, part: 'C112' },
  { key: 'tern-input-short', copper: TERN_INPUT_COPPER, part: 'C7' },
  { key: 'plover-hiccup', copper: PLOVER_BUS_COPPER, part: 'C8' },
] as const;

const spice = hasNgspice();
if (!spice) console.log('with-copper.test: ngspice is not installed, its networks are skipped');

describe.skipIf(!spice)('millivolts along a shorted rail against ngspice', () => {
  it.each(CASES)('are those of the resistor network of $key, by SCPI bytes', ({ key, copper }) => {
    const plan = BOARD_SHELF.find(({ shelf }) => shelf.key === key)!;
    const one = desk(0);
    one.bench.putBoard(key);
    // The input has no point of its own name: its board side is where the leads go.
    const clipAt =
      Object.entries(plan.touchPoints).find(([, net]) => net === copper.net)?.[0] ?? copper.net;
    one.bench.clip(clipAt);
    one.supply('VOLT 0.5;CURR 5;:OUTP ON');
    one.wait(1);
    const touched = places(copper).map((place) => [place, place === copper.net ? clipAt : place]);
    const nets = plan.nets.map(({ name, offOhms }) => `R_${name} ${name} 0 ${offOhms}`);
    const links = plan.links.map(({ part, from, to, ohms }) => `R_${part} ${from} ${to} ${ohms}`);
    const shorts = plan.faults.flatMap((fault) =>
      fault.kind === 'short' ? [`R_short ${fault.net} 0 ${fault.ohms}`] : [],
    );
    const solved = solveNetwork(
      [
        'V1 ref 0 DC 0.5',
        `R_out ref supply ${STAGE_BUILD.sourceOhms}`,
        `R_leads supply ${copper.net} ${STAGE_BUILD.leadOhms}`,
        ...nets,
        ...links,
        ...shorts,
        // A load that fades to nothing below its volts is a resistance down there.
        ...plan.loads.map(
          ({ name, net, fullAboveV, amps }) => `R_${name} ${net} 0 ${fullAboveV / amps}`,
        ),
      ],
      places(copper),
    );
    for (const [place, point] of touched) {
      const expected = solved.get(place!.toLowerCase())!;
      expect(expected, place).toBeGreaterThan(0.01);
      // The meter shows five and a half digits: 10 uV on its 1 V range.
      expect(Math.abs(one.volts(point!) - expected), place).toBeLessThan(10e-6);
    }
  });
});

describe('a shorted rail of copper', () => {
  it.each(CASES)(
    'leads to $part of $key through the noise of the bench',
    ({ key, copper, part }) => {
      const one = desk(1);
      one.bench.putBoard(key);
      const touch = (place: string) =>
        key === 'tern-input-short' && place === 'DC_FUSED' ? 'F1 board side' : place;
      one.bench.clip(touch(copper.net));
      const points = places(copper).map(
        (name): HuntPoint & { readings: HuntPoint['readings'][number][] } => ({
          ...{ id: name, name, alongMm: null, onPicture: null },
          readings: [],
        }),
      );
      let at = 0;
      const round = (amps: () => number) => {
        for (const point of points) {
          at += 1;
          point.readings.push({
            ...{ id: String(at), volts: one.volts(touch(point.name)), decimals: 6, amps: amps() },
            ...{ source: 'meter', takenAt: at },
          });
        }
      };
      round(() => 0);
      one.supply('VOLT 0.5;CURR 2;:OUTP ON');
      one.wait(1);
      round(() => one.supply('MEAS:CURR?'));
      one.supply('VOLT 0.12');
      one.wait(1);
      round(() => one.supply('MEAS:CURR?'));
      const found = huntGradient({
        rail: copper.net,
        reference: 'GND',
        meterSigmaV: 16e-6,
        points,
      });
      expect(found.gradient?.nearest).toContain(part);
      expect(found.gradient?.verdict).toMatch(/nearest|tie/);
      // What ties hangs beyond the short, where no current flows.
      const beyond = found.gradient?.nearest.filter((name) => name !== part);
      expect(beyond).toEqual(key === 'tern-input-short' ? ['C9'] : []);
      expect(found.gradient?.ranked.every(({ isLinear }) => isLinear)).toBe(true);
    },
  );

  it('reads as sound once the part is replaced', () => {
    const one = desk(0);
    one.bench.putBoard('tern-main-short');
    one.bench.replacePart('C112');
    one.bench.clip('MAIN_8V6');
    one.supply('VOLT 0.5;CURR 1;:OUTP ON');
    one.wait(1);
    expect(one.supply('MEAS:CURR?')).toBeLessThan(0.002);
  });
});

describe('the leads', () => {
  const code = (act: () => void) => {
    try {
      act();
    } catch (thrown) {
      return (thrown as WakelineError).trouble.todo;
    }
    return null;
  };

  it('tell their own ohms with their tips together', () => {
    const one = desk(0);
    one.bench.putBoard('tern-healthy');
    one.bench.clip(LEADS_TOGETHER);
    one.supply('VOLT 0.5;CURR 1;:OUTP ON');
    one.wait(1);
    const ohm = one.supply('MEAS:VOLT?') / one.supply('MEAS:CURR?');
    expect(ohm).toBeCloseTo(STAGE_BUILD.leadOhms, 3);
  });

  it('go only to points that there are, with the output off, and back to the input with another board', () => {
    const one = desk(0);
    expect(code(() => one.bench.clip('MAIN_8V6'))).toContain('Put a board on');
    one.bench.putBoard('tern-main-short');
    expect(code(() => one.bench.clip('GND'))).toContain('C112');
    one.bench.clip('C112');
    one.supply('VOLT 0.3;CURR 1;:OUTP ON');
    expect(code(() => one.bench.clip(null))).toContain('Switch the output off');
    one.supply('OUTP OFF');
    one.bench.putBoard('tern-healthy');
    expect(one.bench.state().clippedAt).toBeNull();
  });
});
