import { describe, expect, it } from 'vitest';
import type { Mark } from '../../../core/stages/stage.ts';
import { placeFlags } from '../../../renderer/trace/place-flags.ts';

const at = (atS: number, mark: Mark['mark'], text = ''): Mark => ({ atS, mark, text });
const toX = (atS: number) => atS * 10;

describe('flags of marks', () => {
  it('keep a wide mark its whole word', () => {
    const [flag] = placeFlags([at(5, 'wake-request')], toX, 900);
    expect(flag).toMatchObject({ x: 50, words: 'Wake request', isLeft: false });
  });

  it('never run into the next mark', () => {
    const long = at(1, 'note', 'the fan spins up and stops again');
    const flags = placeFlags([long, at(15, 'output-off')], toX, 900);
    expect(flags[0]!.words).toMatch(/^the fan .*…$/);
    expect(flags[1]!.words).toBe('Output off');
  });

  it('show the word of a mark whole or not at all', () => {
    const flags = placeFlags([at(1, 'wake-request'), at(9, 'output-off')], toX, 900);
    expect(flags.map((flag) => flag.words)).toEqual(['', 'Output off']);
  });

  it('drop the word, not the flag, where marks crowd', () => {
    const flags = placeFlags([at(5, 'inrush'), at(5.2, 'wake-request')], toX, 900);
    expect(flags[0]!.words).toBe('');
    expect(flags).toHaveLength(2);
  });

  it('use the room on the left where the right is taken', () => {
    const flags = placeFlags([at(40, 'wake-request'), at(40.8, 'note', 'Mark 1')], toX, 900);
    expect(flags[0]).toMatchObject({ words: 'Wake request', isLeft: true });
    expect(flags[1]).toMatchObject({ words: 'Mark 1', isLeft: false });
  });

  it('put the last word left of its flag at the right edge', () => {
    const [flag] = placeFlags([at(89, 'output-off')], toX, 900);
    expect(flag).toMatchObject({ words: 'Output off', isLeft: true });
  });

  it('show what a note says and leave out marks that are not in view', () => {
    expect(placeFlags([at(5, 'note', 'fan spun'), at(200, 'gap')], toX, 900)).toHaveLength(1);
    expect(placeFlags([at(5, 'note', 'fan spun')], toX, 900)[0]!.words).toBe('fan spun');
  });
});
