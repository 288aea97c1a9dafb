const ZOOMS = [1, 1.5, 2, 3, 4, 6, 8] as const;

/** The zoom that a key asks for, fitting = 1; null for other keys. */
export function zoomedBy(zoom: number, key: string): number | null {
  if (key === '0') return 1;
  if (key === '+' || key === '=') return ZOOMS.find((one) => one > zoom) ?? zoom;
  if (key === '-' || key === '−') return ZOOMS.findLast((one) => one < zoom) ?? zoom;
  return null;
}
