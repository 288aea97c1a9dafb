/** How large the tree is drawn, largest first; at the least only shapes and tints are read. */
export const ZOOMS = [1, 0.75, 0.5, 0.3, 0.18] as const;
export type Zoom = (typeof ZOOMS)[number];

interface Props {
  readonly zoom: Zoom;
  readonly onZoom: (zoom: Zoom) => void;
  readonly onWhole: () => void;
}

/** Nearer, further, or the whole tree at once. */
export function TreeZoom({ zoom, onZoom, onWhole }: Props) {
  const at = ZOOMS.indexOf(zoom);
  const [nearer, further] = [ZOOMS[at - 1], ZOOMS[at + 1]];
  return (
    <figcaption className="tree-zoom">
      <span className="quiet">Arrows move along feeds</span>
      <button
        type="button"
        className="plain"
        aria-label="Draw the tree larger"
        disabled={nearer === undefined}
        onClick={() => nearer !== undefined && onZoom(nearer)}
      >
        +
      </button>
      <button
        type="button"
        className="plain"
        aria-label="Draw the tree smaller"
        disabled={further === undefined}
        onClick={() => further !== undefined && onZoom(further)}
      >
        −
      </button>
      <button type="button" className="plain" onClick={onWhole}>
        Whole tree
      </button>
    </figcaption>
  );
}
