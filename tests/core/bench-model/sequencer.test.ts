import { describe, expect, it } from 'vitest';
import type { SequencePlan, SequenceStep } from '../../../core/bench-model/board-plan.ts';
import { BOARD_SHELF } from '../../../core/bench-model/board-shelf.ts';
import { createNetwork } from '../../../core/bench-model/network.ts';
import { createSeededRandom } from '../../../core/bench-model/seeded-random.ts';
import { createSequencer } from '../../../core/bench-model/sequencer.ts';
import { createSupplyStage } from '../../../core/bench-model/supply-stage.ts';

const board = BOARD_SHELF.find((plan) => plan.shelf.key === 'tern-healthy')!;

/** A sequencer whose converters' outputs are good as the test says. */
function sequencer(steps: SequenceStep[], change: Partial<SequencePlan> = {}) {
  const health = { mended: new Set<string>(), melted: new Set<string>() };
  const network = createNetwork(createSupplyStage(), board, health);
  const good = new Set(['U2']);
  const faulty = new Set<string>();
  const plan = { poweredBy: 'U2', watches: ['U3'], restartAfterS: 1, steps, ...change };
  const made = createSequencer(plan, {
    network,
    random: createSeededRandom(1, 'test'),
    isGood: (part) => good.has(part),
    isFaulty: (part) => faulty.has(part),
  });
  const enabled = () =>
    network.converters.filter((converter) => converter.enabled).map((c) => c.plan.part);
  return { ...made, network, good, faulty, enabled };
}

describe('createSequencer', () => {
  it('does nothing until its own rail is good, and forgets everything when it goes', () => {
    const s = sequencer([{ do: 'enable', converter: 'U3' }]);
    s.good.clear();
    s.run(0);
    expect(s.nextS()).toBe(Infinity);
    s.good.add('U2');
    s.run(1);
    s.run(s.nextS());
    expect(s.enabled()).toEqual(['U3']);
    s.good.clear();
    s.run(2);
    expect(s.enabled()).toEqual([]);
  });

  it('waits for a rail, and does what was said when it does not come in time', () => {
    for (const [orElse, next] of [
      ['hold', ['U3']],
      ['restart', []],
      ['off', []],
    ] as const) {
      const s = sequencer([
        { do: 'enable', converter: 'U3' },
        { do: 'await-good', converter: 'U3', withinS: 0.1, orElse },
        { do: 'enable', converter: 'U4' },
      ]);
      s.run(0);
      s.run(0.05);
      const deadlineS = s.nextS();
      expect(deadlineS).toBeCloseTo(0.15, 9);
      s.run(deadlineS);
      expect(s.enabled(), orElse).toEqual(next);
      expect(s.nextS()).toBe(orElse === 'restart' ? deadlineS + 1 : Infinity);
    }
  });

  it('goes on as soon as the rail is good', () => {
    const s = sequencer([
      { do: 'enable', converter: 'U3' },
      { do: 'await-good', converter: 'U3', withinS: 0.1, orElse: 'hold' },
      { do: 'enable', converter: 'U4' },
    ]);
    s.run(0);
    s.run(0.05);
    s.good.add('U3');
    s.run(0.07);
    expect(s.enabled()).toEqual(['U3', 'U4']);
  });

  it('starts over when a rail that it watches is lost', () => {
    const s = sequencer([
      { do: 'enable', converter: 'U3' },
      { do: 'await-good', converter: 'U3', withinS: 0.1, orElse: 'hold' },
    ]);
    s.good.add('U3');
    s.run(0);
    s.run(0.05);
    expect(s.enabled()).toEqual(['U3']);
    s.good.delete('U3');
    s.run(5);
    expect(s.enabled()).toEqual([]);
    expect(s.nextS()).toBe(6);
  });

  it('waits for the button, and takes it only once it has power', () => {
    const s = sequencer([{ do: 'await-wake' }, { do: 'enable', converter: 'U3' }]);
    s.pressWake();
    s.run(0);
    s.run(0.05);
    expect(s.enabled()).toEqual([]);
    s.pressWake();
    s.run(1);
    expect(s.enabled()).toEqual(['U3']);
  });

  it('starts over while a part that it checks is faulty', () => {
    const s = sequencer([
      { do: 'enable', converter: 'U3' },
      { do: 'verify', part: 'U20', orElse: 'restart' },
      { do: 'enable', converter: 'U4' },
    ]);
    s.faulty.add('U20');
    s.run(0);
    s.run(0.05);
    expect(s.enabled()).toEqual([]);
    s.faulty.clear();
    s.run(1.05);
    expect(s.enabled()).toEqual(['U3', 'U4']);
  });

  it('moves a busy load within its bounds, after dwells within theirs', () => {
    const s = sequencer([{ do: 'busy', load: 'processor', fromA: 1, toA: 3, dwellS: [0.1, 0.4] }]);
    const load = s.network.loads.find((other) => other.plan.name === 'processor')!;
    s.run(0);
    let lastS = 0.05;
    s.run(lastS);
    const levels = Array.from({ length: 200 }, () => {
      const nextS = s.nextS();
      expect(nextS - lastS).toBeGreaterThanOrEqual(0.1 - 1e-9);
      expect(nextS - lastS).toBeLessThanOrEqual(0.4 + 1e-9);
      s.run(nextS);
      lastS = nextS;
      return load.amps;
    });
    expect(Math.min(...levels)).toBeGreaterThanOrEqual(1);
    expect(Math.max(...levels)).toBeLessThanOrEqual(3);
    expect(new Set(levels).size).toBeGreaterThan(150);
  });
});
