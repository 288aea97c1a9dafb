import { describe, expect, it } from 'vitest';
import { shopClock } from '../../../core/record/record-time.ts';
import { runSection } from '../../../core/record/run-section.ts';
import { inventRun, runAfter, runBefore } from '../../support/record-job.ts';

const clock = shopClock(60);
const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ');
const section = (run: Parameters<typeof runSection>[0]) => runSection(run, 1, 2, 0, clock);

describe('runSection', () => {
  it('writes stage means with the digits that the supply showed, and no more', () => {
    const [, flat, stalled] = section(runBefore()).stages;
    expect(plain(flat?.meanAmps)).toBe('0.019 A');
    expect(plain(stalled?.meanAmps)).toBe('0.263 A');
    expect(plain(stalled?.meanVolts)).toBe('18.97 V');
  });

  it('writes a run of milliamps in milliamps', () => {
    const run = inventRun({}, [{ stage: 'flat-low', forS: 5, amps: 0.019, volts: 4, reason: '' }]);
    expect(plain(section(run).stages[0]?.meanAmps)).toBe('19 mA');
    expect(section(run).plot?.ampsUnit).toBe('mA');
  });

  it('takes the peak from the report, not from the reduced trace', () => {
    const run = runAfter();
    const facts = section(run).facts;
    expect(plain(facts.find((fact) => fact.label === 'Peak')?.text)).toBe(
      `${run.report.peakA?.toFixed(3)} A`,
    );
  });

  it('numbers stages and letters marks as the plot does', () => {
    const { stages, marks, plot } = section(runAfter());
    expect(stages.map((stage) => stage.number)).toEqual(plot?.strip.map((cell) => cell.number));
    expect(marks.map((mark) => mark.letter)).toEqual(plot?.pins.map((pin) => pin.letter));
  });

  it('names what was connected, the feed, and how the run ended', () => {
    const run = runBefore({
      end: 'guard',
      feed: {
        point: 'battery-line',
        cells: true,
        screen: true,
        drive: false,
        note: 'id line to ground',
      },
    });
    const facts = new Map(section(run).facts.map((fact) => [fact.label, plain(fact.text)]));
    expect(facts.get('Fed')).toBe('19 V at the battery line, limit 1.5 A');
    expect(facts.get('Connected')).toBe('cells, screen, no drive; id line to ground');
    expect(facts.get('Ended')).toBe('guard switched the output off');
  });

  it('has a sentence behind the plot for somebody who cannot see it', () => {
    expect(plain(section(runBefore()).sentence)).toBe(
      'Amps and volts over 32 s. Peak 0.267 A. Stages: output off, then flat low draw, then stalled.',
    );
  });
});
