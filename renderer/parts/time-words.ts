/** A log is written in 24 hours whatever the locale says otherwise. */
const TIME = new Intl.DateTimeFormat(undefined, {
  hour: '2-digit',
  minute: '2-digit',
  hourCycle: 'h23',
});
const DAY = new Intl.DateTimeFormat(undefined, { day: 'numeric', month: 'short', year: 'numeric' });

/** The time of day of a UTC millisecond, as the machine's locale writes it. */
export function timeWords(at: number): string {
  return TIME.format(at);
}

/** The day of a UTC millisecond. */
export function dayWords(at: number): string {
  return DAY.format(at);
}
