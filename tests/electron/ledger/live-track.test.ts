import { describe, expect, it } from 'vitest';
import { decodeChunk } from '../../../core/trace/chunk-codec.ts';
import { joinColumns } from '../../../electron/ledger/join-columns.ts';
import { LiveTrack } from '../../../electron/ledger/live-track.ts';
import { CHUNK_SAMPLES } from '../../../electron/ledger/open-chunk.ts';
import { samples } from '../../support/ledger-samples.ts';

const row = { id: 't', run_id: 'r', role: 'supply', quantity: null } as const;

/** A ledger's chunk table in memory: what commits leave behind. */
function commits(track: LiveTrack) {
  const stored = new Map<number, Uint8Array>();
  return {
    stored,
    commit(isLast = false) {
      const { rows, gone, saved } = track.unsaved(0, isLast);
      for (const seq of gone) stored.delete(seq);
      for (const chunk of rows) stored.set(chunk.seq, chunk.columns);
      saved();
    },
    read: () =>
      joinColumns([...stored.entries()].sort(([a], [b]) => a - b).map(([, b]) => decodeChunk(b))),
  };
}

describe('a track that is being recorded', () => {
  it('writes its open chunk again until it is full, and groups of full ones as one row', () => {
    const track = new LiveTrack(row);
    const disk = commits(track);
    const whole = samples(CHUNK_SAMPLES * 17 + 5);
    let widest = 0;
    for (let from = 0; from < whole.ticks.length; from += 300) {
      const to = from + 300;
      track.append(
        {
          ticks: whole.ticks.slice(from, to),
          volts: whole.volts.slice(from, to),
          amps: whole.amps.slice(from, to),
          regulation: whole.regulation.slice(from, to),
        },
        from,
      );
      disk.commit();
      widest = Math.max(widest, disk.stored.size);
      expect(disk.read().ticks).toHaveLength(Math.min(to, whole.ticks.length));
    }
    expect(disk.read()).toEqual(whole);
    expect(widest).toBeLessThanOrEqual(2 + 8);
    expect(disk.stored.size).toBe(2 + 2);
    disk.commit(true);
    expect(disk.stored.size).toBe(3);
    expect(disk.read()).toEqual(whole);
  });

  it('keeps samples that arrive while a commit runs for the next one', () => {
    const track = new LiveTrack(row);
    track.append(samples(10), 0);
    const first = track.unsaved(40);
    track.append(samples(10, { fromTick: 5000 }), 50);
    first.saved();
    expect(track.isDirty).toBe(true);
    const next = track.unsaved(100);
    expect(next.rows.map((chunk) => chunk.samples)).toEqual([20]);
    next.saved();
    expect(track.isDirty).toBe(false);
    expect(track.unsaved(200).rows).toEqual([]);
  });

  it('keeps everything when a commit fails', () => {
    const track = new LiveTrack(row);
    track.append(samples(CHUNK_SAMPLES * 9), 0);
    track.unsaved(10);
    const again = commits(track);
    again.commit();
    expect(again.read()).toEqual(samples(CHUNK_SAMPLES * 9));
  });

  it('says how long the oldest sample of a chunk waited', () => {
    const track = new LiveTrack(row);
    track.append(samples(2), 1000);
    track.append(samples(2, { fromTick: 1000 }), 1200);
    expect(track.unsaved(1350).rows[0]!.waited_ms).toBe(350);
  });
});
