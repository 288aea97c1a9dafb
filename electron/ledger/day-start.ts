/** Beginning of a day `YYYY-MM-DD`, or of the day after it, by this machine's clock, in UTC ms. */
export function dayStartMs(day: string, isAfter: boolean): number {
  const [year, month, date] = day.split('-').map(Number);
  return new Date(year!, month! - 1, date! + (isAfter ? 1 : 0)).getTime();
}
