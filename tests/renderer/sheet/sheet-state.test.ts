import { describe, expect, it } from 'vitest';
import type { BenchState } from '../../../core/contract/bench-calls.ts';
import { STAGE_IDS, type Stage } from '../../../core/stages/stage.ts';
import { nextForStage } from '../../../renderer/sheet/next-for-stage.ts';
import { type SheetFacts, sheetState } from '../../../renderer/sheet/sheet-state.ts';
import { FAKE_BENCH, FAKE_SUPPLY } from '../../support/fake-bench.ts';
import { fakeJob } from '../../support/fake-jobs.ts';

const JOB = '0190b3a2-0000-7000-8000-000000000001';
const facts = (bench: Partial<BenchState>, more: Partial<SheetFacts> = {}): SheetFacts => ({
  bench: { ...FAKE_BENCH, ...bench },
  items: null,
  statedInputV: null,
  newest: null,
  finished: null,
  trouble: null,
  ...more,
});
const supply = (part: Partial<BenchState['supply']>) => ({ supply: { ...FAKE_SUPPLY, ...part } });
const stage = (name: Stage['stage']): Stage => ({
  stage: name,
  startS: 0,
  endS: 4,
  meanA: 0.2,
  meanV: 19,
  confidence: 0.9,
  reason: '0.2 A for 4 s',
  periodS: name === 'cycling' ? 1.5 : null,
  final: false,
});

describe('what the sheet says to do next', () => {
  it('starts before the bench has answered, and says so when it cannot', () => {
    expect(sheetState({ ...facts({}), bench: null }).kind).toBe('starting');
    const trouble = {
      code: 'ledger-damaged',
      what: 'The ledger is damaged',
      where: 'ledger.sqlite',
      todo: 'Put back the last backup.',
    } as const;
    expect(sheetState({ ...facts({}), bench: null, trouble })).toMatchObject({
      kind: 'error',
      sentence: 'The ledger is damaged. Put back the last backup.',
    });
  });

  it('asks for a supply on an empty bench', () => {
    expect(sheetState(facts(supply({ link: 'none' })))).toMatchObject({ kind: 'empty' });
  });

  it('names the first open step before power and how many there are', () => {
    const { items } = fakeJob(1, {}, 0);
    const gates = items.filter((item) => item.beforePower);
    const state = sheetState(facts({ jobId: JOB }, { items }));
    expect(state.kind).toBe('waiting');
    expect(state.sentence).toContain(`${gates.length} steps come before power`);
    expect(state.sentence.toLowerCase()).toContain(gates[0]!.title.toLowerCase());
  });

  it('asks for volts, with what the board states, while the supply is set to nothing', () => {
    const state = sheetState(facts({ jobId: JOB, ...supply({ setV: 0 }) }, { statedInputV: 19 }));
    expect(state.sentence).toContain('19\u00a0V');
  });

  it('names volts and limit before output on', () => {
    const { sentence } = sheetState(facts({ jobId: JOB }));
    expect(sentence).toContain('19.00\u00a0V');
    expect(sentence).toContain('1.000\u00a0A');
  });

  it('says that power waits for the watcher', () => {
    expect(sheetState(facts({ jobId: JOB, watcherReady: false })).sentence).toMatch(/watcher/);
  });

  it('follows the newest stage while the output is on', () => {
    const on = supply({ outputOn: true, regulation: 'cv' });
    expect(sheetState(facts(on, { newest: stage('stalled') }))).toMatchObject({
      kind: 'live',
      word: 'Stalled',
    });
  });

  it('is limited as soon as the supply says so, whatever the stage still is', () => {
    const cc = supply({ outputOn: true, regulation: 'cc' });
    expect(sheetState(facts(cc, { newest: stage('stepping') }))).toMatchObject({
      kind: 'limited',
      word: 'Current limit',
    });
  });

  it('warns that a lost supply may still feed the board', () => {
    const state = sheetState(facts(supply({ link: 'lost', outputOn: true })));
    expect(state.kind).toBe('lost');
    expect(state.sentence).toMatch(/may still be on/);
  });

  it('keeps a run that ended in sight until the next', () => {
    const report = {
      trackerVersion: 1,
      samples: 10,
      durationS: 23,
      reach: { stage: 'stepping', heldA: 0.231, heldW: 4.4, share: null },
      stages: [],
      marks: [],
      steps: [],
      energyWh: null,
      chargeAh: null,
      peakA: 0.3,
    } as const;
    const state = sheetState(facts({ jobId: JOB }, { finished: { report } }));
    expect(state.kind).toBe('finished');
    expect(state.sentence).toContain('reached stepping');
  });

  it('has a next step for every stage', () => {
    for (const name of STAGE_IDS) {
      const sentence = nextForStage(name, name === 'cycling' ? 1.5 : null);
      expect(sentence).toMatch(/^[A-Z].*\.$/);
    }
    expect(nextForStage('cycling', 1.5)).toContain('1.5\u00a0s');
  });
});
