import { describe, expect, it } from 'vitest';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { distinctStates, statesToPick, unknownStates } from '../../../core/rails/shop-states.ts';

const { board, rows } = readRailTable(
  'rail,volts,fed by,states\nIN,12,,\nP5,5,IN,Run + standby\nP3V3,3.3,P5,run + parked\n',
  'b',
);

describe('states of the shop', () => {
  it('keeps the first spelling of a name', () => {
    expect(distinctStates([' Run', 'run', '', 'stop'])).toEqual(['Run', 'stop']);
  });

  it("offers the shop's in its order, then what only the board names", () => {
    expect(statesToPick(board, ['off', 'standby', 'run'])).toEqual([
      'off',
      'standby',
      'run',
      'parked',
    ]);
    expect(statesToPick(board, [])).toEqual(['Run', 'standby', 'parked']);
  });

  it('names the row of a rail whose state the shop does not have', () => {
    expect(unknownStates(board, ['off', 'standby', 'run'], rows)).toEqual([
      {
        row: 4,
        text: "P3V3 is up in parked, which is none of the shop's states (off, standby, run).",
      },
    ]);
    expect(unknownStates(board, [], rows)).toEqual([]);
  });
});
