import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { readRailTable, writeRailTable } from '../../../core/rails/rail-table.ts';
import { randomBoard } from './random-board.ts';
import { SAMPLE_TABLE, sampleBoard } from './sample-board.ts';

const FIVE = `rail\tvolts\tfed by
IN\t19
MAIN\t12.6\tIN
3V3\t3V3\tMAIN
5V\t5\tMAIN
CORE\t0.85\tMAIN`;

function refusal(text: string): string {
  try {
    readRailTable(text, 'B');
  } catch (error) {
    if (error instanceof WakelineError) return error.message;
  }
  return 'was not refused';
}

describe('readRailTable', () => {
  it('needs no more than five rails pasted from a spreadsheet', () => {
    const { board, warnings } = readRailTable(FIVE, 'Five');
    expect(warnings).toEqual([]);
    expect(board.rails.map(({ name, nominalV }) => [name, nominalV])).toEqual([
      ['IN', 19],
      ['MAIN', 12.6],
      ['3V3', 3.3],
      ['5V', 5],
      ['CORE', 0.85],
    ]);
    expect(board.rails[4]).toMatchObject({ isCore: true, tolerance: 0.05, through: 'converter' });
  });

  it('reads the same rails without a heading, in the order of the columns', () => {
    const { board } = readRailTable('IN,19\nMAIN,12.6,3%,IN\n', 'B');
    expect(board.rails[1]).toMatchObject({ name: 'MAIN', tolerance: 0.03, fedBy: ['IN'] });
  });

  it('reads every column', () => {
    const core = sampleBoard.rails.find(({ name }) => name === 'CORE');
    expect(core).toMatchObject({
      nominalV: 0.85,
      tolerance: 0.03,
      fedBy: ['MAIN'],
      through: 'converter',
      enabledBy: ['IO_1V05', 'MEM'],
      states: ['on'],
      isCore: true,
      expectedOhms: { median: 0.48, spread: 0.03, count: 5 },
      expectedDiodeV: { median: 0, count: 5 },
    });
    expect(core?.points).toEqual([
      { name: 'C850', role: 'output', cost: 1, volts: null },
      { name: 'Q85.5', role: 'input', cost: 2, volts: null },
      { name: 'U85.7', role: 'enable', cost: 3, volts: 3.3 },
    ]);
    expect(sampleBoard).toMatchObject({
      statedInputV: 19,
      statedLimitA: 3.5,
      runningA: 0.55,
      runsFlat: false,
    });
  });

  it('takes several feeds, an absolute tolerance, semicolons and comments', () => {
    const { board } = readRailTable(
      '# typed by hand\nrail;volts;tolerance;fed by\nIN;19\nBAT;12\nMAIN;12;0.3V;IN or BAT\n',
      'B',
    );
    expect(board.rails[2]).toMatchObject({ fedBy: ['IN', 'BAT'], tolerance: 0.025 });
  });

  it('lets enables loop', () => {
    const text = 'rail,volts,fed by,enabled by\nIN,19\nA,5,IN,B\nB,3.3,IN,A\n';
    expect(readRailTable(text, 'B').board.rails).toHaveLength(3);
  });

  it('takes an enable that is no rail as a signal, and asks when it looks like a slip', () => {
    const text = 'rail,volts,fed by,enabled by\nIN,19\nPP5V,5,IN\nA,3.3,IN,PP5\nB,3.3,IN,SLEEP_N\n';
    const { warnings } = readRailTable(text, 'B');
    expect(warnings.map(({ row, text: t }) => [row, /Is it PP5V/.test(t)])).toEqual([
      [4, true],
      [5, false],
    ]);
  });

  it.each([
    ['', /table is empty \(row 1\)/],
    ['rail,volts\n', /holds no rails/],
    [
      'rail,volts,fed by\nIN,19\nA,5,INN\n',
      /INN feeds it and is no rail.*row 3, rail A.*Is it IN\?/,
    ],
    ['rail,volts,fed by\nIN,19\nA,5,B\nB,5,A\n', /loop: .*A.*row [34]/],
    ['rail,volts,fed by\nIN,19\nA,5,A\n', /A feeds itself.*row 3/],
    ['rail,volts\nIN,19\nIN,5\n', /already in row 2.*row 3/],
    ['rail,volts\nIN,abc\n', /character 1 of "abc".*row 2, column volts/],
    ['rail,volts\nIN,\n', /no volts.*row 2, column volts/],
    ['rail,volts\n,19\n', /no rail name.*row 2, column rail/],
    ['rail,volts\nIN,0\n', /0 V cannot be judged.*row 2/],
    ['rail,volts,tolerance\nIN,19,120%\n', /no tolerance.*row 2, column tolerance/],
    ['rail,volts,through\nIN,19,magic\n', /"magic" is no way.*row 2, column through/],
    ['rail,volts,points\nIN,19,C1:x:2\n', /no probe point.*row 2, column points/],
    ['rail,volts,ohms\nIN,19,lots\n', /row 2, column ohms to ground/],
    ['rail,volts,colour\nIN,19,red\n', /No column is called "colour".*row 1, the heading/],
    ['rail,volts,volts\nIN,19,1\n', /there twice.*row 1/],
    ['rail,volts\nIN,19,5,6\n', /"5" stands beyond the last column.*row 2, column 3/],
    ['# stated input V,lots\nrail,volts\nIN,19\n', /"lots" is no number.*row 1/],
  ])('refuses %j and names the row', (text, message) => {
    expect(refusal(text)).toMatch(message);
  });
});

describe('writeRailTable', () => {
  it('writes what it reads back, the sample too', () => {
    expect(readRailTable(writeRailTable(sampleBoard), sampleBoard.name).board).toEqual(sampleBoard);
    expect(readRailTable(SAMPLE_TABLE, 'x').board.rails).toHaveLength(12);
  });

  it('does so for any board', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.nat(), (count, seed) => {
        const board = randomBoard(count, seed);
        expect(readRailTable(writeRailTable(board), board.name).board).toEqual(board);
      }),
      { numRuns: 60 },
    );
  });
});
