import { STAGE_IDS, type StageId, type StageReport } from '../../core/stages/stage.ts';
import type { DrawnDraw } from './drawn-draws.ts';

/** Labels against answers: how much of each labelled stage got which name. */
export class StageScore {
  readonly table = new Map<StageId, Map<StageId, number>>();
  boundaries = 0;
  near = 0;
  /** Labelled time by the confidence of the name given: all of it, and what was named right. */
  readonly sureness = new Map<number, { all: number; right: number }>();
  readonly alike: boolean;

  /** `alike`: without volts, output off and no draw look the same and count as one. */
  constructor(alike = false) {
    this.alike = alike;
  }

  private key(stage: StageId): StageId {
    return this.alike && stage === 'off' ? 'no-draw' : stage;
  }

  /** Adds a draw; returns the share of its labelled time that was named right. */
  add(draw: DrawnDraw, report: StageReport, sampleS: number): number {
    let right = 0;
    let all = 0;
    const labels = this.joined(draw.labels);
    const stages = this.joined(report.stages);
    for (const label of labels) {
      const row = this.table.get(label.stage) ?? new Map<StageId, number>();
      this.table.set(label.stage, row);
      for (const stage of stages) {
        const s = Math.min(label.endS, stage.endS) - Math.max(label.startS, stage.startS);
        if (s <= 0) continue;
        // Every stretch counts as one, however long: short stages matter as much as long ones.
        row.set(stage.stage, (row.get(stage.stage) ?? 0) + s / (label.endS - label.startS));
        all += s;
        if (stage.stage === label.stage) right += s;
      }
    }
    const room = Math.max(0.2, 2 * sampleS) + 1e-6;
    for (let i = 1; i < labels.length; i++) {
      this.boundaries++;
      const at = labels[i]!.startS;
      const to = labels[i]!.stage;
      if (stages.some((s) => s.stage === to && Math.abs(s.startS - at) <= room)) this.near++;
    }
    return all > 0 ? right / all : 0;
  }

  /** Adds the report's confidences: how often names given with each were right. */
  addSureness(draw: DrawnDraw, report: StageReport): void {
    for (const stage of report.stages) {
      const step = Math.round(stage.confidence * 20) / 20;
      const row = this.sureness.get(step) ?? { all: 0, right: 0 };
      this.sureness.set(step, row);
      const lasts = Math.max(1e-9, stage.endS - stage.startS);
      for (const label of draw.labels) {
        const s = Math.min(label.endS, stage.endS) - Math.max(label.startS, stage.startS);
        if (s <= 0) continue;
        row.all += s / lasts;
        if (this.key(label.stage) === this.key(stage.stage)) row.right += s / lasts;
      }
    }
  }

  /** The reliability table as one line of text. */
  reliability(): string {
    const rows = [...this.sureness].sort(([a], [b]) => a - b);
    return rows
      .map(
        ([c, { all, right }]) =>
          `${c.toFixed(2)}: ${(right / all).toFixed(3)} of ${all.toFixed(0)}`,
      )
      .join('; ');
  }

  private joined(list: readonly { stage: StageId; startS: number; endS: number }[]) {
    const out: { stage: StageId; startS: number; endS: number }[] = [];
    for (const item of list) {
      const stage = this.key(item.stage);
      const last = out[out.length - 1];
      if (last !== undefined && last.stage === stage) last.endS = item.endS;
      else out.push({ stage, startS: item.startS, endS: item.endS });
    }
    return out;
  }

  /** F1 of every labelled stage. */
  f1(): Map<StageId, number> {
    const out = new Map<StageId, number>();
    for (const stage of this.table.keys()) {
      let labelled = 0;
      let named = 0;
      let right = 0;
      for (const [label, row] of this.table) {
        for (const [name, n] of row) {
          if (label === stage) labelled += n;
          if (name === stage) named += n;
          if (label === stage && name === stage) right += n;
        }
      }
      out.set(stage, labelled + named > 0 ? (2 * right) / (labelled + named) : 1);
    }
    return out;
  }

  macroF1(): number {
    const all = [...this.f1().values()];
    return all.reduce((a, b) => a + b, 0) / all.length;
  }

  /** The confusion matrix as lines of text: rows are labels, columns are names given. */
  matrix(): string {
    const short = (s: string) => s.slice(0, 8).padStart(9);
    const lines = [`${''.padEnd(10)}${STAGE_IDS.map(short).join('')}${short('F1')}`];
    const f1 = this.f1();
    for (const label of STAGE_IDS) {
      const row = this.table.get(label);
      if (row === undefined) continue;
      const cells = STAGE_IDS.map((s) =>
        ((row.get(s) ?? 0) === 0 ? '.' : row.get(s)!.toFixed(1)).padStart(9),
      );
      lines.push(`${label.padEnd(10)}${cells.join('')}${f1.get(label)!.toFixed(3).padStart(9)}`);
    }
    return lines.join('\n');
  }
}
