import type { HuntSection } from '../../core/record/record-content.ts';
import { Facts } from './facts.tsx';

/** Hunts for a short: what was set, what each point read while the current flowed, what it showed. */
export function HuntPart({ hunts }: { readonly hunts: readonly HuntSection[] }) {
  if (hunts.length === 0) return null;
  return (
    <section>
      <h2>Hunting the short</h2>
      {hunts.map((hunt) => (
        <article key={hunt.title} className="hunt">
          <h3 dir="auto">{hunt.title}</h3>
          <Facts facts={hunt.facts} />
          {hunt.rows.length > 0 && (
            <table>
              <thead>
                <tr>
                  {hunt.heads.map((head) => (
                    <th key={head} scope="col">
                      {head}
                    </th>
                  ))}
                </tr>
              </thead>
              <tbody>
                {hunt.rows.map((row, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
                  <tr key={i}>
                    {row.map((cell, at) => (
                      // biome-ignore lint/suspicious/noArrayIndexKey: printed once, never reordered
                      <td key={at} dir="auto">
                        {cell}
                      </td>
                    ))}
                  </tr>
                ))}
              </tbody>
            </table>
          )}
          {hunt.notes.map((note) => (
            <p key={note} dir="auto">
              {note}
            </p>
          ))}
        </article>
      ))}
    </section>
  );
}
