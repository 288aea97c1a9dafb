import { describe, expect, it } from 'vitest';
import { meanwhile, type SeenRun } from '../../../core/attention/meanwhile.ts';
import type { Mark, Stage, StageId } from '../../../core/stages/stage.ts';

const stage = (id: StageId, startS: number): Stage => ({
  stage: id,
  startS,
  endS: startS + 1,
  meanA: 0.2,
  meanV: 19,
  confidence: 0.9,
  reason: `Seen from ${startS} s.`,
  periodS: null,
  final: true,
});
const run = (stages: Stage[], marks: Mark[] = [], more: Partial<SeenRun['run']> = {}): SeenRun => ({
  run: { startedAt: 100_000, endedAt: null, end: null, kind: 'powered', durationS: 0, ...more },
  report: { stages, marks, durationS: 0 },
});

describe('what happened meanwhile', () => {
  it('is what began while nobody looked, oldest first', () => {
    const seen = run([stage('stepping', 1), stage('running', 5), stage('fell-back', 60)]);
    const lines = meanwhile({ fromMs: 103_000, toMs: 400_000 }, [seen], []);
    expect(lines.map((one) => one.text)).toEqual([
      'Running: Seen from 5 s.',
      'Fell back: Seen from 60 s.',
    ]);
    expect(lines[1]?.atMs).toBe(160_000);
  });

  it('says how a run ended, and mixes in what was raised', () => {
    const seen = run([], [], { endedAt: 200_000, end: 'guard' });
    const told = [{ atMs: 150_000, text: 'The meter was lost', weight: 4 }];
    expect(meanwhile({ fromMs: 0, toMs: 999_999 }, [seen], told).map((one) => one.text)).toEqual([
      'The meter was lost',
      'The guard switched the output off',
    ]);
  });

  it('keeps to ten lines and never drops a guard trip for a note', () => {
    const notes = Array.from(
      { length: 30 },
      (_, i): Mark => ({ mark: 'note', atS: 10 + i, text: `n${i}` }),
    );
    const trip: Mark = { mark: 'guard-trip', atS: 11.5, text: '0.6 A is above 0.5 A' };
    const lines = meanwhile({ fromMs: 0, toMs: 999_999 }, [run([], [...notes, trip])], []);
    expect(lines).toHaveLength(10);
    expect(lines.map((one) => one.text)).toContain('Guard trip: 0.6 A is above 0.5 A');
    expect(lines.at(-1)?.text).toBe('and 22 smaller things');
  });

  it('leaves out what the bench recorded with the output off', () => {
    const idle = run([stage('off', 3)], [], { kind: 'idle' });
    expect(meanwhile({ fromMs: 0, toMs: 999_999 }, [idle], [])).toEqual([]);
  });
});
