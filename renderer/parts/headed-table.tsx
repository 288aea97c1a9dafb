import type { ReactNode } from 'react';

interface Props {
  readonly caption?: string;
  readonly heads: readonly string[];
  /** Its rows. */
  readonly children: ReactNode;
}

/** A table with a head a column, each of which names its column to a screen reader. */
export function HeadedTable({ caption, heads, children }: Props) {
  return (
    <table>
      {caption !== undefined && <caption>{caption}</caption>}
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>{children}</tbody>
    </table>
  );
}
