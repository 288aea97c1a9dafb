import { describe, expect, it } from 'vitest';
import { createErrorQueue } from '../../../core/scpi/error-queue.ts';
import { scpiFault } from '../../../core/scpi/scpi-fault.ts';

// Pushes and pops: testErrorQueue and testErrorHandlingDeviceDependent in test_parser.c of
// j123b567/scpi-parser at 886615902b27.
describe('createErrorQueue', () => {
  it('keeps the oldest, loses the newest, and says so in its last place', () => {
    const queue = createErrorQueue(4);
    for (const number of [-1, -2, -3, -4, -5, -6]) queue.push(scpiFault(number));
    expect(queue.count).toBe(4);
    expect(Array.from({ length: 5 }, () => queue.take().fault)).toEqual([-1, -2, -3, -350, 0]);
  });

  it('keeps what fits without a word about overflow', () => {
    const queue = createErrorQueue(4);
    for (const number of [-1, -2, -3, -4]) queue.push(scpiFault(number));
    expect(Array.from({ length: 5 }, () => queue.take().fault)).toEqual([-1, -2, -3, -4, 0]);
  });
});
