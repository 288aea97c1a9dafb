import type { ReactNode } from 'react';

interface Props {
  /** Given by Recharts: where the reference line lies. */
  readonly viewBox?: { readonly x?: number; readonly y?: number; readonly width?: number };
  readonly word: string;
  readonly value: string;
  readonly fill: string;
}

/** Names a reference line beside the plot, where no curve runs through it. */
export function SideLabel({ viewBox, word, value, fill }: Props): ReactNode {
  const x = (viewBox?.x ?? 0) + (viewBox?.width ?? 0) + 7;
  const y = viewBox?.y ?? 0;
  return (
    <text x={x} y={y} fill={fill} fontSize={13}>
      <tspan x={x} dy={-3}>
        {word}
      </tspan>
      <tspan x={x} dy={14}>
        {value}
      </tspan>
    </text>
  );
}
