import type { InjectionState } from '../../core/contract/injection-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions } from '../state/use-desk.ts';

/** Limit and volts, a step at a time and only by a person. */
export function InjectionSteps({ injection }: { injection: InjectionState }) {
  const { plan, step, setV } = injection;
  const { ask, say } = useActions();
  const move = async (of: 'limit' | 'volts', up: boolean): Promise<void> => {
    const state = await ask('stepInjection', { of, up });
    const at = state?.plan?.steps[state.step];
    if (state === null || at === undefined) return;
    say(of === 'limit' ? `Limit ${at.limitA} A.` : `${state.setV} V.`);
  };
  useKey('raiseLimit', () => void move('limit', true), plan !== null);
  useKey('lowerLimit', () => void move('limit', false), plan !== null);
  if (plan === null) return null;
  const now = plan.steps[step];
  const amps = (value: number) => formatQuantity(value, 'A', null, { prefix: 0 });
  const volts = (value: number) => formatQuantity(value, 'V', 2, { prefix: 0 });
  return (
    <div className="injection-steps">
      <StepRow
        name="Limit"
        value={amps(now?.limitA ?? 0)}
        aside={`ceiling ${amps(plan.guard.mostA)}`}
        lower="Lower"
        raise="Raise"
        lowerKey="Page down"
        raiseKey="Page up"
        isFirst={step === 0}
        isLast={step >= plan.steps.length - 1}
        onMove={(up) => void move('limit', up)}
      />
      <StepRow
        name="Volts"
        value={volts(setV)}
        aside={`ceiling ${volts(plan.ceilingV)}`}
        lower={`− ${volts(plan.stepV)}`}
        raise={`+ ${volts(plan.stepV)}`}
        isFirst={setV <= plan.stepV}
        isLast={setV >= plan.ceilingV}
        onMove={(up) => void move('volts', up)}
      />
    </div>
  );
}

interface RowProps {
  readonly name: string;
  readonly value: string;
  readonly aside: string;
  readonly lower: string;
  readonly raise: string;
  readonly lowerKey?: string;
  readonly raiseKey?: string;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly onMove: (up: boolean) => void;
}

function StepRow(row: RowProps) {
  const key = (up: boolean) => (
    <button
      type="button"
      className="plain"
      aria-disabled={up ? row.isLast : row.isFirst}
      aria-label={`${row.name}: ${up ? row.raise : row.lower}`}
      onClick={() => {
        if (!(up ? row.isLast : row.isFirst)) row.onMove(up);
      }}
    >
      {up ? row.raise : row.lower}
      {(up ? row.raiseKey : row.lowerKey) !== undefined && (
        <>
          {' '}
          <KeyCap>{up ? row.raiseKey : row.lowerKey}</KeyCap>
        </>
      )}
    </button>
  );
  return (
    <div className="step-row">
      <span className="step-name">{row.name}</span>
      <strong className="step-value">{row.value}</strong>
      <span className="quiet step-aside">{row.aside}</span>
      {key(false)}
      {key(true)}
    </div>
  );
}
