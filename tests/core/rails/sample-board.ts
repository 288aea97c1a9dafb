import type { BoardModel } from '../../../core/rails/board-model.ts';
import type { RailReading } from '../../../core/rails/rail-reading.ts';
import { readRailTable } from '../../../core/rails/rail-table.ts';

/** An invented board, visibly so: a dozen rails of a small computer that nobody makes. */
export const SAMPLE_TABLE = `# stated input V,19
# stated limit A,3.5
# running draw A,0.55
# runs flat,no
rail,volts,tolerance,fed by,through,enabled by,states,points,ohms to ground,diode reading,core
DC_IN,19,5%,,,,,"in J1; out F1.2",22k ± 2k (5),0.55 ± 0.01 (5),
MAIN,12.6,5%,DC_IN,converter,,,"C710; in Q71.5; en U71.3:2@3.3",9k ± 800 (5),0.48 ± 0.01 (5),
AON_3V3,3.3,5%,MAIN,regulator,,,"C33; in L30.1",1.2k ± 100 (5),0.42 ± 0.01 (5),
AON_5V,5,5%,MAIN,converter,AON_3V3,,"C51:1; in Q51.5:2; en U51.9:2@3.3",800 ± 60 (5),0.4 ± 0.01 (5),
S_5V,5,5%,AON_5V,switch,PM_SLEEP,on + sleep,"C55; in Q55.3:2; en Q55.1:2@5",650 ± 60 (5),,
S_3V3,3.3,5%,AON_3V3,switch,S_5V,on + sleep,"C37; en Q37.1:3@3.3",300 ± 30 (5),,
MEM,1.2,3%,MAIN,converter,S_3V3,on + sleep,"C12; in Q12.5:2; en U12.4:3@3.3",60 ± 8 (5),,no
IO_1V05,1.05,3%,S_5V,converter,S_3V3,on,"C105:2; en U105.2:3@3.3",12 ± 1.5 (5),,
CORE,0.85,3%,MAIN,converter,IO_1V05 + MEM,on,"C850; in Q85.5:2; en U85.7:3@3.3",0.48 ± 0.03 (5),0.000 (5),yes
GFX,0.9,3%,MAIN,converter,CORE,on,"C900:2; en U90.7:3@3.3",,,yes
LCD_5V,5,5%,S_5V,link,,on + sleep,"F50.2:2",620 ± 50 (5),,
USB_5V,5,5%,AON_5V,switch,S_3V3,on,"C60; en U60.4:2@3.3",1.1k ± 100 (5),,
`;

export const sampleBoard: BoardModel = readRailTable(SAMPLE_TABLE, 'Invented Board 1').board;

let serial = 0;

/** `MAIN 3.1V`, `MAIN.in 12.6V`, `CORE.en 0V`, `MAIN 4ohm`, `CORE-MAIN 0.3ohm`, `MAIN OLohm`. */
export function reading(text: string, more: Partial<RailReading> = {}): RailReading {
  const match = /^(\w+?)(?:\.(in|en))?(?:-(\w+))?\s+(OL|-?[\d.]+)(k?)(V|ohm|diode)$/.exec(text);
  const [, rail = '', role, against, number = '', kilo = '', unit = ''] = match ?? [];
  serial += 1;
  const isVolts = unit === 'V';
  return {
    id: `r${serial}`,
    rail,
    point: role === 'in' ? 'input' : role === 'en' ? 'enable' : 'output',
    quantity: isVolts ? 'volts' : unit === 'ohm' ? 'ohms' : 'diode',
    against: against ?? null,
    value: number === 'OL' ? null : Number(number) * (kilo === 'k' ? 1000 : 1),
    overload: number === 'OL',
    state: isVolts ? 'on' : null,
    powered: isVolts,
    wires: 4,
    leadOhm: null,
    accuracy: { percent: 0.1, offset: 0.001 },
    at: serial,
    ...more,
  };
}
