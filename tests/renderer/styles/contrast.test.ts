import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { STAGE_IDS } from '../../../core/stages/stage.ts';

// Relative luminance and contrast ratio as WCAG 2.2 defines them; 4.5 for text (1.4.3), 3 for
// graphics and controls (1.4.11).
const sheet = readFileSync(
  path.resolve(import.meta.dirname, '../../../renderer/styles/tokens.css'),
  'utf8',
);

function tokens(selector: string): Map<string, string> {
  const block = new RegExp(`${selector}[^{]*\\{([^}]*)\\}`).exec(sheet)?.[1] ?? '';
  return new Map([...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!]));
}

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

const TEXT = [
  ['ink', 'paper'],
  ['ink', 'sunk'],
  ['quiet', 'paper'],
  ['quiet', 'sunk'],
  ['amps', 'paper'],
  ['amps', 'sunk'],
  ['volts', 'paper'],
  ['volts', 'sunk'],
  ['done', 'paper'],
  ['alarm-ink', 'alarm-ground'],
  ['paper', 'amps'],
  ...STAGE_IDS.map((stage) => ['ink', `tint-${stage}`] as const),
] as const;

const GRAPHICS = [
  ['edge', 'paper'],
  ['edge', 'sunk'],
  ['amps', 'paper'],
  ['volts', 'paper'],
  ['under', 'paper'],
] as const;

describe.each([
  ['paper', `:root\\[data-theme=['"]light['"]\\]`],
  ['mat', `:root\\[data-theme=['"]dark['"]\\]`],
])('contrast on %s', (_, selector) => {
  const theme = tokens(selector);

  it('reaches 4.5 for every text', () => {
    const short = TEXT.filter(([a, b]) => contrast(theme.get(a)!, theme.get(b)!) < 4.5);
    expect(short).toEqual([]);
  });

  it('reaches 3 for every line and edge', () => {
    const short = GRAPHICS.filter(([a, b]) => contrast(theme.get(a)!, theme.get(b)!) < 3);
    expect(short).toEqual([]);
  });
});

it('measures black on white as 21 to 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21);
});
