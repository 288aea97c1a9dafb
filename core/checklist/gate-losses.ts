import { GATE_WORDS, GATES } from './gate.ts';
import { templates } from './template.ts';
import type { Template, TemplateStep } from './template-step.ts';

/** Something that a changed template guards no longer. */
export interface GateLoss {
  /** Step and kind of loss: what a person says to have understood. */
  readonly id: string;
  readonly step: string;
  /** What is lost, in one sentence. */
  readonly what: string;
  /** What it guards against. */
  readonly guards: string;
}

/** What each gate guards against. Common practice of board repair, no source. */
const GUARDS: Readonly<Record<string, string>> = {
  'cells-unplugged':
    'A cell left in feeds the meter, the iron and every short, and heats until it burns.',
  'capacitors-discharged':
    'A charged capacitor burns fingers and meters, and every ohm read beside it is wrong.',
  'looked-over': 'First power burns what a look would have found.',
  'wet-cells': 'A cell that got wet heats hours later.',
  'ohms-input':
    'First power into a shorted input burns the board, and the reading from before is what the repair is proved by.',
  'ohms-main-rail':
    'First power into a shorted main rail burns it, and the reading from before is what the repair is proved by.',
  'ohms-main-to-core':
    'A shorted upper switch joins the main rail to a core: first power kills the processor.',
  'ohms-cell-line': 'First power into a shorted cell line burns it.',
  'field-outputs-off': 'A controller that comes back to life moves machinery and people get hurt.',
  'bath-and-rinse': 'Residue goes on eating the board, and leaks once the soak warms it.',
  'dried-and-looked': 'A wet board shorts at first power, under the chips where nobody sees it.',
  'clean-before-soak': 'A soak over flux and residue proves nothing.',
  'fitted-parts-looked-at': 'A part fitted the wrong way round burns at first power.',
  'fit-looked-at':
    'A part fitted the wrong way round, or a bridge of solder, burns at first power.',
  'same-points-again':
    'Only the same point read again shows that the lifted part was the fault, and the only one.',
  'second-run': 'Without a second run nobody knows whether the part mended anything.',
  'same-volts-again': 'A board can wake with a rail out of tolerance.',
};

/** A kind of job of the shop's own is held to what every board needs. */
const EVERY_BOARD = [
  'cells-unplugged',
  'capacitors-discharged',
  'looked-over',
  'ohms-input',
  'ohms-main-rail',
  'fit-looked-at',
  'same-points-again',
  'second-run',
];

/** The steps of the built-in template that a template of this key is held to. */
function heldTo(key: string): readonly TemplateStep[] {
  const own = templates.find((template) => template.key === key);
  if (own !== undefined) return own.steps;
  return templates[0]!.steps.filter(({ step }) => EVERY_BOARD.includes(step));
}

const WHEN_WORDS = {
  always: 'always',
  liquid: 'only when the board got wet',
  'part-fitted': 'only after a part was fitted',
} as const;

/**
 * What a template guards no longer, against the built-in one of its kind: a gate that is gone, holds
 * back less, is asked more seldom or is a mere tick now, and a caution that is no longer shown.
 */
export function gateLosses(template: Template): readonly GateLoss[] {
  return heldTo(template.key).flatMap((before): GateLoss[] => {
    const after = template.steps.find(({ step }) => step === before.step);
    const guards = GUARDS[before.step] ?? before.caution ?? '';
    const loss = (kind: string, what: string): GateLoss => ({
      id: `${before.step}:${kind}`,
      step: before.step,
      what,
      guards,
    });
    const isGate = before.gate !== 'nothing';
    if (after === undefined) {
      return isGate
        ? [
            loss(
              'gone',
              `"${before.title}" is gone: nothing holds back ${GATE_WORDS[before.gate]} for it`,
            ),
          ]
        : [];
    }
    const losses: GateLoss[] = [];
    if (GATES.indexOf(after.gate) < GATES.indexOf(before.gate)) {
      losses.push(
        loss(
          `holds-${after.gate}`,
          `"${after.title}" no longer holds back ${GATE_WORDS[before.gate]}${after.gate === 'nothing' ? '' : `, only ${GATE_WORDS[after.gate]}`}`,
        ),
      );
    }
    if (isGate && after.when !== before.when && after.when !== 'always') {
      losses.push(
        loss(`when-${after.when}`, `"${after.title}" is asked ${WHEN_WORDS[after.when]}`),
      );
    }
    if (isGate && isMeasured(before) && !isMeasured(after)) {
      losses.push(loss('tick', `"${after.title}" is a tick now, nothing is measured`));
    }
    if (before.caution !== null && after.caution === null) {
      losses.push({
        ...loss('caution', `"${after.title}" shows no caution any more`),
        guards: before.caution,
      });
    }
    return losses;
  });
}

const isMeasured = ({ needs }: TemplateStep) => needs === 'reading' || needs === 'run';
