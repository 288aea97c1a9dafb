import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BoardPlan, ConverterPlan } from '../../core/bench-model/board-plan.ts';
import { STAGE_BUILD } from '../../core/bench-model/supply-stage.ts';

/** Whether the circuit simulator ngspice is installed. */
export function hasNgspice(): boolean {
  return ['/usr/bin/ngspice', '/usr/local/bin/ngspice', '/opt/homebrew/bin/ngspice'].some(
    existsSync,
  );
}

/** A waveform: its times and its values. */
export interface Wave {
  readonly t: number[];
  readonly y: number[];
}

/**
 * Writes a board and the supply as an ngspice netlist, from the plan's own figures: behavioural
 * sources for the regulator and the converters, plain R, C for the rest. Converters ramp from the
 * times given and are open before.
 */
export function boardNetlist(
  board: BoardPlan,
  feed: { setV: number; limitA: number },
  startsS: Readonly<Record<string, number>>,
): string[] {
  const rampS = feed.setV / STAGE_BUILD.slewVPerS;
  const limited = (wanted: string, limit: string) => `max(0,min(${wanted},${limit}))`;
  const lines = [
    `Vref ref 0 PWL(0 0 ${rampS} ${feed.setV})`,
    `Bsup 0 supply I=${limited(`(v(ref)-v(supply))/${STAGE_BUILD.sourceOhms}`, String(feed.limitA))}`,
    `Cout supply 0 ${STAGE_BUILD.outputFarads} IC=0`,
    `Rterm supply 0 ${STAGE_BUILD.terminalOhms}`,
    'Vsense supply lead 0',
    `Rlead lead ${board.inputNet} ${STAGE_BUILD.leadOhms}`,
  ];
  for (const net of board.nets) {
    lines.push(`C_${net.name} ${net.name} 0 ${net.farads} IC=0`);
    lines.push(`R_${net.name} ${net.name} 0 ${net.offOhms}`);
  }
  for (const link of board.links) lines.push(`R_${link.part} ${link.from} ${link.to} ${link.ohms}`);
  for (const fault of board.faults) {
    if (fault.kind === 'short') lines.push(`R_fault_${fault.part} ${fault.net} 0 ${fault.ohms}`);
  }
  for (const load of board.loads) {
    lines.push(
      `B_${load.name} ${load.net} 0 I=${load.amps}*${limited(`v(${load.net})/${load.fullAboveV}`, '1')}`,
    );
  }
  for (const converter of board.converters) {
    const startS = startsS[converter.part];
    if (startS !== undefined) lines.push(...converterLines(converter, startS));
  }
  return lines;
}

function converterLines(plan: ConverterPlan, startS: number): string[] {
  const { part, from, to } = plan;
  const low = plan.lowLimitA ?? plan.limitA;
  const rise = `max(0,min((v(${to})-${0.5 * plan.setV})/${0.2 * plan.setV},1))`;
  const limit = `(${low}+${plan.limitA - low}*${rise})`;
  const siemens = plan.limitA / (0.01 * plan.setV);
  const duty = plan.kind === 'buck' ? 0.96 : 1;
  const aim = `min(v(aim_${part}),${duty}*v(${from}))`;
  const passes = plan.kind === 'buck' ? 0 : 1;
  const out = `v(out_${part})`;
  const power = `${plan.idleW}+${1 - passes}*v(${to})*${out}/${plan.efficiency}+${plan.lossOhms}*${out}*${out}`;
  return [
    `V_aim_${part} aim_${part} 0 PWL(0 0 ${startS} 0 ${startS + plan.softStartS} ${plan.setV})`,
    `V_on_${part} on_${part} 0 PWL(0 0 ${startS} 0 ${startS + 1e-9} 1)`,
    `B_val_${part} out_${part} 0 V=v(on_${part})*max(0,min((${aim}-v(${to}))*${siemens},${limit}))`,
    `B_out_${part} 0 ${to} I=${out}`,
    `B_in_${part} ${from} 0 I=v(on_${part})*(${passes}*${out}+(${power})/max(v(${from}),0.05))`,
  ];
}

/** Runs a transient with ngspice and gives the waves asked for (`v(NET)`, `i(VSOURCE)`). */
export function runTransient(
  netlist: readonly string[],
  run: { stepS: number; endS: number; waves: readonly string[] },
): Wave[] {
  const folder = mkdtempSync(join(tmpdir(), 'wakeline-spice-'));
  try {
    const table = join(folder, 'waves.txt');
    const deck = [
      'Wakeline check',
      ...netlist,
      '.options reltol=1e-5 abstol=1e-9 vntol=1e-7 method=gear',
      '.control',
      `tran ${run.stepS} ${run.endS} 0 ${run.stepS} uic`,
      'set wr_singlescale',
      `wrdata ${table} ${run.waves.join(' ')}`,
      'quit',
      '.endc',
      '.end',
    ];
    writeFileSync(join(folder, 'deck.cir'), deck.join('\n'));
    execFileSync('ngspice', ['-b', 'deck.cir'], { cwd: folder, stdio: 'pipe' });
    const rows = readFileSync(table, 'utf8')
      .trim()
      .split('\n')
      .map((row) => row.trim().split(/\s+/).map(Number));
    const t = rows.map((row) => row[0]!);
    return run.waves.map((_, i) => ({ t, y: rows.map((row) => row[i + 1]!) }));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The wave's value at a time, in a straight line between its points. */
export function waveAt({ t, y }: Wave, at: number): number {
  const next = t.findIndex((time) => time >= at);
  if (next <= 0) return next < 0 ? y.at(-1)! : y[0]!;
  const share = (at - t[next - 1]!) / (t[next]! - t[next - 1]!);
  return y[next - 1]! + share * (y[next]! - y[next - 1]!);
}
