import { describe, expect, it } from 'vitest';
import { injectionReach } from '../../../core/rails/injection-reach.ts';
import { judgeReadings } from '../../../core/rails/judge-readings.ts';
import { reading, sampleBoard } from './sample-board.ts';

const reachOf = (rail: string, texts: readonly string[]) =>
  injectionReach(
    sampleBoard,
    rail,
    judgeReadings(
      sampleBoard,
      texts.map((text) => reading(text)),
    ),
  );
const names = (rail: string, texts: readonly string[]) =>
  reachOf(rail, texts)
    .reach.map(({ name }) => name)
    .sort();

describe('injectionReach', () => {
  it('counts every rail behind an upper switch that was not measured as reached', () => {
    const { reach, joints } = reachOf('MAIN', []);
    expect(Math.min(...reach.map(({ standsV }) => standsV))).toBe(0.85);
    expect(joints.every(({ found }) => found === 'not-measured')).toBe(true);
    expect(reach.find(({ name }) => name === 'CORE')?.how).toMatch(/were not measured/);
  });

  it('leaves them out once ohms between say that they are apart', () => {
    const apart = [
      'AON_3V3-MAIN 10kohm',
      'AON_5V-MAIN 9.8kohm',
      'MEM-MAIN 9kohm',
      'CORE-MAIN 9kohm',
      'GFX-MAIN 9kohm',
      'MAIN-DC_IN 30kohm',
    ];
    expect(names('MAIN', apart)).toEqual(['MAIN']);
  });

  it('follows links and switches to what they tie to the rail', () => {
    const apart = ['IO_1V05-S_5V 650ohm', 'AON_5V-MAIN 9.8kohm'];
    expect(names('S_5V', apart)).toEqual(['AON_5V', 'LCD_5V', 'S_5V', 'USB_5V']);
  });

  it('names a joint that was found', () => {
    const { joints } = reachOf('CORE', ['CORE-MAIN 0.05ohm']);
    expect(joints).toContainEqual({ rail: 'CORE', other: 'MAIN', found: 'joined' });
  });
});
