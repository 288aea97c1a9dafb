/** Writes text as string response data: in double quotes, inner ones doubled. */
export function writeText(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** Writes bytes (Latin-1 text) as a definite-length block. */
export function writeBlock(data: string): string {
  const length = String(data.length);
  return `#${length.length}${length}${data}`;
}

/** Writes a whole number in base 16, 8 or 2 with its mark: `#HFF`, `#Q377`, `#B11111111`. */
export function writeRadix(value: number, base: 16 | 8 | 2): string {
  const mark = { 16: '#H', 8: '#Q', 2: '#B' }[base];
  return mark + value.toString(base).toUpperCase();
}

/** Writes a number with a fixed count of digits after the point (NR2). */
export function writeFixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** Writes a number with a signed mantissa and a two-digit exponent (NR3): `+1.234560E-03`. */
export function writeExponent(value: number, decimals: number): string {
  const [mantissa = '0', exponent = '+0'] = value.toExponential(decimals).split('e');
  const sign = value < 0 ? '' : '+';
  return `${sign}${mantissa}E${exponent[0]}${exponent.slice(1).padStart(2, '0')}`;
}

/**
 * Writes a number with at most `digits` significant digits, no trailing zeros, and an exponent
 * only outside 1e-4..10^digits: the C library's %g, which many instruments answer with.
 */
export function writeGeneral(value: number, digits: number): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(digits));
  const [mantissa = '', exponent = '+0'] = value.toExponential(digits - 1).split('e');
  const power = Number(exponent);
  if (power >= -4 && power < digits) return String(rounded);
  const short = mantissa.includes('.') ? mantissa.replace(/\.?0+$/, '') : mantissa;
  return `${short}e${exponent[0]}${exponent.slice(1).padStart(2, '0')}`;
}
