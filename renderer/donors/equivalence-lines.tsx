import type { Equivalence, RuleVerdict } from '../../core/parts/equivalence.ts';
import { RULE_WORDS } from '../../core/parts/judge-equivalence.ts';

const VERDICTS: Readonly<Record<Equivalence['verdict'], string>> = {
  equal: 'An equal',
  'not-equal': 'Not an equal',
  'not-ruled-out': 'Not ruled out',
};
const RULES: Readonly<Record<RuleVerdict['verdict'], string>> = {
  pass: 'Passes',
  fail: 'Fails',
  'not-checked': 'Not checked',
  question: 'Look at it',
};

/** Whether a part is an equal, rule by rule, and what nobody checked. */
export function EquivalenceLines({ equivalence }: { readonly equivalence: Equivalence }) {
  const { verdict, rules, notChecked } = equivalence;
  return (
    <details className="equivalence">
      <summary>
        <strong>{VERDICTS[verdict]}</strong>
        <span className="quiet">
          {' '}
          by {rules.length} {rules.length === 1 ? 'rule' : 'rules'}; {notChecked.length} not checked
        </span>
      </summary>
      <ul>
        {rules.map(({ rule, verdict: one, reason }) => (
          <li key={rule}>
            <strong>{RULES[one]}</strong> {RULE_WORDS[rule]}: {reason}
          </li>
        ))}
      </ul>
      {notChecked.length > 0 && <p className="quiet">Not checked: {notChecked.join(', ')}.</p>}
    </details>
  );
}
