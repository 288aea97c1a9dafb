import { readingParts, type ShownReading } from '../units/format-reading.ts';

const UNIT_SAID: Readonly<Record<string, string>> = {
  V: 'volts',
  mV: 'millivolts',
  A: 'amps',
  mA: 'milliamps',
  µA: 'microamps',
  mΩ: 'milliohms',
  Ω: 'ohms',
  kΩ: 'kilohms',
  MΩ: 'megohms',
};

/** A reading as a voice says it: `3.3 volts, main rail`. Four digits: nobody keeps more by ear. */
export function spokenReading(reading: ShownReading, place: string): string {
  const at = place === '' ? '' : `, ${place}`;
  if (reading.overload) {
    const word =
      reading.quantity === 'volts' || reading.quantity === 'amps' ? 'over range' : 'open';
    return `${word}${at}`;
  }
  if (reading.value === null) return '';
  const size = reading.value === 0 ? 0 : Math.floor(Math.log10(Math.abs(reading.value)));
  const decimals = Math.min(reading.decimals ?? 12, Math.max(0, 3 - size));
  const { number, unit } = readingParts({ ...reading, decimals });
  const said = number
    .replace('\u2212', 'minus ')
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
  return `${said} ${UNIT_SAID[unit] ?? unit}${at}`;
}
