import { type KeyboardEvent, useEffect, useRef } from 'react';
import { addStep, moveStep, putInPhase } from '../../core/checklist/edit-steps.ts';
import { GATE_WORDS } from '../../core/checklist/gate.ts';
import type { GateLoss } from '../../core/checklist/gate-losses.ts';
import type { TemplateFault } from '../../core/checklist/template-faults.ts';
import { PHASES } from '../../core/checklist/template-step.ts';
import { AlarmSign } from '../parts/caution.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { changeStep, type EditedTemplate } from './edited-template.ts';
import { StepFields } from './step-fields.tsx';
import { needLine, TIME_WORDS } from './step-words.ts';

interface Props {
  readonly edited: EditedTemplate;
  readonly faults: readonly TemplateFault[];
  readonly losses: readonly GateLoss[];
  readonly onEdit: (edited: EditedTemplate) => void;
}

/** The steps in their phases; one is open. Arrows walk, Alt and arrows move, Insert adds, Delete removes. */
export function StepList({ edited, faults, losses, onEdit }: Props) {
  const { steps, at } = edited;
  const list = useRef<HTMLDivElement | null>(null);
  const wantsFocus = useRef(false);
  const go = (to: EditedTemplate): void => {
    wantsFocus.current = true;
    onEdit(to);
  };
  // biome-ignore lint/correctness/useExhaustiveDependencies: after every change by a key
  useEffect(() => {
    if (!wantsFocus.current) return;
    wantsFocus.current = false;
    const line = list.current?.querySelector<HTMLButtonElement>(`[data-step="${at}"]`);
    line?.focus();
    line?.scrollIntoView({ block: 'nearest' });
  }, [edited, at]);

  const move = (by: -1 | 1): void => {
    const moved = moveStep(steps, at, by);
    go({ ...edited, steps: moved.steps, at: moved.index });
  };
  const add = (): void => {
    const grown = addStep(steps, at, 'New step');
    go({ ...edited, steps: grown, at: at + 1 });
  };
  const remove = (): void => {
    const left = steps.filter((_, i) => i !== at);
    go({ ...edited, steps: left, at: Math.min(at, left.length - 1) });
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const { target } = event;
    if (!(target instanceof HTMLElement) || !target.matches('[data-step]')) return;
    const by = event.key === 'ArrowUp' ? -1 : event.key === 'ArrowDown' ? 1 : null;
    if (by !== null && event.altKey) move(by);
    else if (by !== null) {
      go({ ...edited, at: Math.max(0, Math.min(steps.length - 1, at + by)) });
    } else if (event.key === 'Insert') add();
    else if (event.key === 'Delete') remove();
    else return;
    event.preventDefault();
  };

  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the lines are buttons, their keys bubble here
    <div ref={list} className="step-list" onKeyDown={onKeyDown}>
      <p className="quiet step-keys">
        <span>
          <KeyCap>↑</KeyCap> <KeyCap>↓</KeyCap> walk
        </span>
        <span>
          <KeyCap>Alt</KeyCap> <KeyCap>↑</KeyCap> <KeyCap>↓</KeyCap> move
        </span>
        <span>
          <KeyCap>Insert</KeyCap> add after
        </span>
        <span>
          <KeyCap>Delete</KeyCap> remove
        </span>
      </p>
      {PHASES.map((phase) => {
        const here = steps.flatMap((step, i) => (step.phase === phase ? [i] : []));
        if (here.length === 0) return null;
        return (
          <section key={phase} aria-label={phase}>
            <h3>{phase}</h3>
            <ol>
              {here.map((i) => (
                <li key={steps[i]!.step} className="step-item" data-open={i === at}>
                  <StepLine
                    step={steps[i]!}
                    index={i}
                    isOpen={i === at}
                    faults={faults.filter(({ index }) => index === i)}
                    losses={losses.filter(({ step }) => step === steps[i]!.step)}
                    onOpen={() => go({ ...edited, at: i === at ? -1 : i })}
                  />
                  {i === at && (
                    <>
                      <StepFields
                        step={steps[i]!}
                        onChange={(part) => onEdit(changeStep(edited, i, part))}
                        onPhase={(to) => {
                          const put = putInPhase(steps, i, to);
                          onEdit({ ...edited, steps: put.steps, at: put.index });
                        }}
                      />
                      <div className="form-keys">
                        <button type="button" className="plain" onClick={() => move(-1)}>
                          Move up
                        </button>
                        <button type="button" className="plain" onClick={() => move(1)}>
                          Move down
                        </button>
                        <button type="button" className="plain" onClick={add}>
                          Add a step after it
                        </button>
                        <button type="button" className="plain" onClick={remove}>
                          Remove this step
                        </button>
                      </div>
                    </>
                  )}
                </li>
              ))}
            </ol>
          </section>
        );
      })}
      {steps.length === 0 && (
        <button type="button" className="plain strong" onClick={add}>
          Add the first step
        </button>
      )}
    </div>
  );
}

function StepLine(props: {
  readonly step: EditedTemplate['steps'][number];
  readonly index: number;
  readonly isOpen: boolean;
  readonly faults: readonly TemplateFault[];
  readonly losses: readonly GateLoss[];
  readonly onOpen: () => void;
}) {
  const { step, index, isOpen, faults, losses, onOpen } = props;
  return (
    <>
      <button
        type="button"
        className="step-line"
        data-step={index}
        aria-expanded={isOpen}
        onClick={onOpen}
      >
        <span className="step-number">{index + 1}</span>
        <span className="step-title">{step.title || 'Without a title'}</span>
        <span className="quiet">
          {needLine(step)}
          {step.when !== 'always' && `, ${TIME_WORDS[step.when]}`}
        </span>
        {step.gate !== 'nothing' && (
          <span className="step-gate">holds back {GATE_WORDS[step.gate]}</span>
        )}
        {step.caution !== null && (
          <span className="step-caution">
            <AlarmSign width={16} />
            <span className="heard-only">shows a caution</span>
          </span>
        )}
      </button>
      {losses.map(({ id, what, guards }) => (
        <p key={id} className="step-loss">
          <strong>{what}.</strong> {guards}
        </p>
      ))}
      {faults.map((fault) => (
        <p key={fault.what} role="alert" className="form-wrong">
          {fault.what}. {fault.todo}
        </p>
      ))}
    </>
  );
}
