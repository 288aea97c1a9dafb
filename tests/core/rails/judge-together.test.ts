import { describe, expect, it } from 'vitest';
import { judgeReadings } from '../../../core/rails/judge-readings.ts';
import { reading, sampleBoard } from './sample-board.ts';

const judge = (...texts: readonly [string, object?][]) =>
  judgeReadings(
    sampleBoard,
    texts.map(([text, more], at) => reading(text, { at: at * 20_000, ...more })),
  );
const unfed = { powered: false };

// What misleads a meter is common practice, no source.
describe('ohms in the light of volts', () => {
  it('says nothing of ohms on a rail that was last seen charged', () => {
    const [, ohms] = judge(['MAIN 4.1V', unfed], ['MAIN 30ohm']);
    expect(ohms?.verdict).toBe('cannot-tell');
    expect(ohms?.reason).toMatch(/^4\.1\sV still stood on MAIN/);
  });

  it('judges them once the rail was seen discharged', () => {
    const [, , ohms] = judge(['MAIN 4.1V', unfed], ['MAIN 0.02V', unfed], ['MAIN 9kohm']);
    expect(ohms?.verdict).toBe('as-known-good');
  });

  it('lets the settled one of two count while capacitors charge', () => {
    const [early, late] = judge(['MAIN 1.4ohm'], ['MAIN 8.8kohm']);
    expect(early?.verdict).toBe('cannot-tell');
    expect(early?.reason).toContain('capacitors were charging');
    expect(late?.verdict).toBe('as-known-good');
  });

  it('keeps a short that an hour later is gone: it comes and goes', () => {
    const [early] = judge(['MAIN 1.4ohm'], ['MAIN 8.8kohm', { at: 3_600_000 }]);
    expect(early?.verdict).toBe('shorted');
  });

  it('takes negative ohms for charge, whatever their size', () => {
    expect(judge(['MAIN -45ohm'])[0]).toMatchObject({ verdict: 'cannot-tell', isOdd: false });
    expect(judge(['CORE -0.4ohm'])[0]?.reason).toContain('charge');
  });
});

describe('volts in the light of what feeds them', () => {
  it('calls a rail back-fed that stands above its feed, and its feed held up from there', () => {
    const [feed, rail] = judge(['AON_5V 4.35V'], ['USB_5V 4.9V']);
    expect(rail?.verdict).toBe('back-fed');
    expect(rail?.reason).toContain('stands above AON_5V');
    expect(feed?.verdict).toBe('back-fed');
    expect(feed?.reason).toContain('held up from USB_5V');
  });

  it('leaves a rail alone that lies a little below its feed', () => {
    expect(judge(['AON_5V 5V'], ['USB_5V 4.95V']).map(({ verdict }) => verdict)).toEqual([
      'present',
      'present',
    ]);
  });

  it('calls volts of the wrong sign neither missing nor there', () => {
    expect(judge(['MAIN -12.6V'])[0]).toMatchObject({ verdict: 'cannot-tell', isOdd: true });
    expect(judge(['DC_IN -0.7V'])[0]?.reason).toContain('below ground');
  });
});
