import type { BoardPlan, LinkPlan, LoadPlan, NetPlan } from './board-plan.ts';
import { aimRate, type Converter, createConverter, workOut } from './converter.ts';
import { LEADS_TOGETHER } from './leads-together.ts';
import { createLeaks, type Leaks } from './leaks.ts';
import type { StiffSystem } from './rosenbrock-step.ts';
import {
  createStageCurrent,
  rampEndS,
  regulate,
  STAGE_BUILD,
  type SupplyStage,
} from './supply-stage.ts';

/** A link at work. `heat` is a fuse's excess so far, in ampere squared seconds. */
export interface Link {
  readonly plan: LinkPlan;
  readonly from: number;
  readonly to: number;
  open: boolean;
  heat: number;
}

/** A load at work and, when it moves with work, how. */
export interface Load {
  readonly plan: LoadPlan;
  readonly net: number;
  amps: number;
  busy: { fromA: number; toA: number; dwellS: readonly [number, number]; nextS: number } | null;
}

/** The whole circuit: net 0 is the supply's terminals, net 1 the board's input, if there is one. */
export interface Network extends StiffSystem {
  readonly leaks: Leaks;
  readonly names: readonly string[];
  readonly siemensToGround: Float64Array;
  readonly links: readonly Link[];
  readonly converters: readonly Converter[];
  readonly loads: readonly Load[];
  netOf(name: string): number;
}

/** What of a board's faults is left, and which of its fuses have melted. */
export interface BoardHealth {
  readonly mended: ReadonlySet<string>;
  readonly melted: ReadonlySet<string>;
}

/** Where the supply's leads are: a net of the board, or their tips clipped to each other. */
export type LeadsAt = { readonly net: string } | typeof LEADS_TOGETHER;

/** Builds the circuit of the supply with a board on its leads (null = its input), or with nothing. */
export function createNetwork(
  stage: SupplyStage,
  board: BoardPlan | null,
  health: BoardHealth,
  leadsAt: LeadsAt | null = null,
): Network {
  const faults = board?.faults.filter((fault) => !health.mended.has(fault.part)) ?? [];
  const isInput = (net: NetPlan) => net.name === board?.inputNet;
  const nets = [
    ...(board?.nets.filter(isInput) ?? []),
    ...(board?.nets.filter((net) => !isInput(net)) ?? []),
  ];
  const names = ['supply', ...nets.map((net) => net.name)];
  const n = names.length;
  const netOf = (name: string) => names.indexOf(name);
  const farads = Float64Array.from([STAGE_BUILD.outputFarads, ...nets.map((net) => net.farads)]);
  const siemensToGround = Float64Array.from([
    1 / STAGE_BUILD.terminalOhms,
    ...nets.map((net) => 1 / net.offOhms),
  ]);
  for (const fault of faults) {
    if (fault.kind === 'short') siemensToGround[netOf(fault.net)]! += 1 / fault.ohms;
  }
  if (leadsAt === LEADS_TOGETHER) siemensToGround[0]! += 1 / STAGE_BUILD.leadOhms;
  const leaks = createLeaks(faults, board?.shelf.statedInputV ?? 1, netOf, siemensToGround);

  const lead: LinkPlan = {
    part: 'leads',
    from: 'supply',
    to: leadsAt === null || leadsAt === LEADS_TOGETHER ? (board?.inputNet ?? '') : leadsAt.net,
    ohms: STAGE_BUILD.leadOhms,
  };
  const isOnBoard = leadsAt !== LEADS_TOGETHER;
  const links = (board ? [...(isOnBoard ? [lead] : []), ...board.links] : []).map((plan) => ({
    plan,
    from: netOf(plan.from),
    to: netOf(plan.to),
    open:
      health.melted.has(plan.part) ||
      faults.some((fault) => fault.kind === 'open-link' && fault.part === plan.part),
    heat: 0,
  }));
  const converters = (board?.converters ?? []).map((plan) =>
    createConverter(plan, netOf(plan.from), netOf(plan.to), {
      canEnable: !faults.some((f) => f.kind === 'no-enable' && f.converter === plan.part),
      alive: !faults.some((f) => f.kind === 'dead-converter' && f.converter === plan.part),
    }),
  );
  const loads: Load[] = (board?.loads ?? []).map((plan) => ({
    plan,
    net: netOf(plan.net),
    amps: plan.amps,
    busy: null,
  }));

  const source = createStageCurrent();
  function rates(t: number, v: Float64Array, into: Float64Array): void {
    for (let i = 0; i < n; i += 1) into[i] = -siemensToGround[i]! * v[i]!;
    into[0]! += regulate(stage, t, v[0]!, source).netA;
    for (const link of links) {
      if (link.open) continue;
      const amps = (v[link.from]! - v[link.to]!) / link.plan.ohms;
      into[link.from]! -= amps;
      into[link.to]! += amps;
    }
    for (const converter of converters) {
      workOut(converter, t, v[converter.from]!, v[converter.to]!);
      into[converter.from]! -= converter.inA;
      into[converter.to]! += converter.outA;
    }
    for (const load of loads) into[load.net]! -= load.amps * loadShare(load, v[load.net]!);
    for (let i = 0; i < n; i += 1) into[i]! /= farads[i]!;
  }

  function derivatives(t: number, v: Float64Array, jacobian: Float64Array, drift: Float64Array) {
    jacobian.fill(0);
    drift.fill(0);
    const add = (row: number, column: number, siemens: number) => {
      jacobian[row * n + column]! += siemens / farads[row]!;
    };
    for (let i = 0; i < n; i += 1) add(i, i, -siemensToGround[i]!);
    regulate(stage, t, v[0]!, source);
    add(0, 0, source.netPerV);
    drift[0]! += (source.netPerRef * referenceRate(stage, t)) / farads[0]!;
    for (const link of links) {
      if (link.open) continue;
      const siemens = 1 / link.plan.ohms;
      add(link.from, link.from, -siemens);
      add(link.from, link.to, siemens);
      add(link.to, link.to, -siemens);
      add(link.to, link.from, siemens);
    }
    for (const converter of converters) {
      const { from, to } = converter;
      workOut(converter, t, v[from]!, v[to]!);
      add(from, from, -converter.inPerIn);
      add(from, to, -converter.inPerOut);
      add(to, from, converter.outPerIn);
      add(to, to, converter.outPerOut);
      const rate = aimRate(converter, t);
      drift[from]! -= (converter.inPerRef * rate) / farads[from]!;
      drift[to]! += (converter.outPerRef * rate) / farads[to]!;
    }
    for (const load of loads) {
      const volts = v[load.net]!;
      const fading = volts > 0 && volts < load.plan.fullAboveV;
      if (fading) add(load.net, load.net, -load.amps / load.plan.fullAboveV);
    }
  }

  return {
    n,
    names,
    siemensToGround,
    leaks,
    links,
    converters,
    loads,
    netOf,
    rates,
    derivatives,
  };
}

function loadShare(load: Load, volts: number): number {
  return Math.min(1, Math.max(0, volts / load.plan.fullAboveV));
}

function referenceRate(stage: SupplyStage, t: number): number {
  if (t >= rampEndS(stage)) return 0;
  return (stage.on ? stage.setV : 0) > stage.fromV ? STAGE_BUILD.slewVPerS : -STAGE_BUILD.slewVPerS;
}
