import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { METER_DIALECTS } from '../../../core/instruments/meter-dialects.ts';
import { SUPPLY_DIALECTS } from '../../../core/instruments/supply-dialects.ts';
import { connectSupply } from '../../../electron/bench/connected-supply.ts';
import { openDialectBook, readDialectFile } from '../../../electron/bench/dialect-book.ts';
import { monotonicClock } from '../../../electron/bench/monotonic-clock.ts';
import { openPretendLink } from '../../../electron/bench/pretend-link.ts';
import { dialogueSupply } from '../../support/dialogue-supply.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const root = tempFolder('dialects');
let count = 0;
const folder = () => {
  count += 1;
  return join(root, String(count));
};
const WHO = 'BENCHWORKS,TWO-FORTY,000017,1.4';
const [plain] = SUPPLY_DIALECTS;

describe('the dialect book', () => {
  it('keeps what was found for an identity, and finds it again in a new book', () => {
    const at = folder();
    const book = openDialectBook(at);
    expect(book.supply(WHO)).toBeUndefined();
    book.keepSupply(WHO, plain!);
    book.keepMeter(WHO, METER_DIALECTS[0]!);
    const again = openDialectBook(at);
    expect(again.supply(WHO)).toEqual(plain);
    expect(again.meter(WHO)).toEqual(METER_DIALECTS[0]);
    expect(again.supply('BENCHWORKS,TWO-FORTY,000018,1.4')).toBeUndefined();
    expect(readdirSync(at).sort()).toEqual([
      'meter-benchworks-two-forty-000017-1-4.json',
      'supply-benchworks-two-forty-000017-1-4.json',
    ]);
  });

  it('believes a person’s file, for a whole family by the beginning of its identity, and never writes it', () => {
    const at = folder();
    const mine = { ...plain!, key: 'mine', pauseMs: 30 };
    openDialectBook(at);
    const text = JSON.stringify({
      role: 'supply',
      identity: 'BENCHWORKS,TWO-FORTY,*',
      keptBy: 'person',
      dialect: mine,
    });
    writeFileSync(join(at, 'mine.json'), text);
    const book = openDialectBook(at);
    book.keepSupply(WHO, plain!);
    expect(book.supply(WHO)?.key).toBe('mine');
    expect(readdirSync(at)).toEqual(['mine.json']);
    expect(readFileSync(join(at, 'mine.json'), 'utf8')).toBe(text);
  });

  it('tells of a file with an unknown key, with file and key, and leaves it alone', () => {
    const at = folder();
    openDialectBook(at);
    const path = join(at, 'odd.json');
    const odd = { role: 'supply', identity: WHO, keptBy: 'app', dialect: { ...plain, colour: 1 } };
    writeFileSync(path, JSON.stringify(odd));
    writeFileSync(join(at, 'torn.json'), '{"role": "supp');
    const book = openDialectBook(at);
    expect(book.supply(WHO)).toBeUndefined();
    expect(book.troubles).toHaveLength(2);
    const [first, second] = book.troubles;
    expect(first).toMatchObject({ code: 'bad-dialect', where: path });
    expect(first?.what).toContain('colour');
    expect(second?.what).toContain('no JSON');
    expect(readdirSync(at).sort()).toEqual(['odd.json', 'torn.json']);
    expect(() => readDialectFile(path)).toThrow('DEVELOPERS.md');
  });

  it('spares the probing at the next connection, and takes up what was learned', async () => {
    const book = openDialectBook(folder());
    const asked: number[] = [];
    for (let i = 0; i < 2; i += 1) {
      const device = dialogueSupply(WHO);
      const supply = await connectSupply(
        {
          open: () => openPretendLink(device, 'pretend supply'),
          clock: monotonicClock,
          intervalMs: 1000,
          onReading: () => {},
          onLost: () => {},
          onBack: () => {},
        },
        book,
      );
      asked.push(device.taken.length);
      await supply.close();
    }
    expect(book.supply(WHO)?.regulation).toEqual({ by: 'mode', ask: 'OUTP:MODE?' });
    expect(asked[1]!).toBeLessThan(asked[0]! - 4);
  });

  it('finds the dialect anew when the kept one does not work any more', async () => {
    const book = openDialectBook(folder());
    const wrong = { ...plain!, measureVolts: 'READ:VOLTS?', key: 'wrong' };
    book.keepSupply(WHO, wrong);
    const supply = await connectSupply(
      {
        open: () => openPretendLink(dialogueSupply(WHO), 'pretend supply'),
        clock: monotonicClock,
        intervalMs: 1000,
        onReading: () => {},
        onLost: () => {},
        onBack: () => {},
      },
      book,
    );
    expect(supply.driver.dialect).toBe('plain');
    expect(book.supply(WHO)?.key).toBe('plain');
    await supply.close();
  });
});
