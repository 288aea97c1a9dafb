import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { type ReadoutFacts, Readouts } from '../../../renderer/sheet/readouts.tsx';

const facts: ReadoutFacts = {
  isLive: true,
  volts: 18.9,
  amps: 0.2,
  regulation: 'cv',
  setV: 19,
  limitA: 1,
  voltsDecimals: 2,
  ampsDecimals: 3,
};
const text = (more: Partial<ReadoutFacts>) =>
  renderToStaticMarkup(<Readouts {...facts} {...more} />).replaceAll(/<[^>]+>/g, ' ');

describe('readouts', () => {
  it('hold the instrument’s digits, so that numbers never jump', () => {
    expect(text({})).toMatch(/0\.200\s+A/);
    expect(text({})).toMatch(/18\.90\s+V/);
    expect(text({ amps: 1 })).toMatch(/1\.000\s+A/);
  });

  it('show a dash for what is not known, never 0', () => {
    const unknown = text({ volts: null, amps: null, regulation: null });
    expect(unknown.match(/–/g)?.length).toBeGreaterThanOrEqual(4);
    expect(unknown).not.toMatch(/(?<![\d.])0/);
    expect(unknown).toContain('not told');
  });

  it('never show 0.000 with a minus', () => {
    expect(text({ amps: -0.0001 })).not.toContain('−');
  });

  it('name how the supply regulates', () => {
    expect(text({ regulation: 'cc' })).toMatch(/CC\s+holds the current/);
  });
});
