import { type CurveSignature, SIGNATURE_POINTS } from './curve-signature.ts';

/** A run in the tree. */
export interface TreeEntry {
  readonly id: string;
  readonly signature: CurveSignature;
}

/** A part of the tree: the box that holds all shapes in it, and either runs or two halves. */
export interface TreeNode {
  readonly low: Float64Array;
  readonly high: Float64Array;
  entries: TreeEntry[] | null;
  halves: readonly [TreeNode, TreeNode] | null;
  /** Point and level at which the halves part. */
  point: number;
  level: number;
}

/** Most runs in a leaf. */
const LEAF_RUNS = 24;

/** A tree without runs. */
export function createTree(): TreeNode {
  return {
    low: new Float64Array(SIGNATURE_POINTS).fill(Number.POSITIVE_INFINITY),
    high: new Float64Array(SIGNATURE_POINTS).fill(Number.NEGATIVE_INFINITY),
    entries: [],
    halves: null,
    point: 0,
    level: 0,
  };
}

/** Adds a run: down to its leaf, which is parted where its shapes differ most once it is full. */
export function addToTree(root: TreeNode, entry: TreeEntry): void {
  const { shape } = entry.signature;
  let node = root;
  for (;;) {
    widen(node, shape);
    if (node.halves === null) break;
    node = node.halves[shape[node.point]! < node.level ? 0 : 1];
  }
  node.entries!.push(entry);
  if (node.entries!.length > LEAF_RUNS) part(node);
}

function widen({ low, high }: TreeNode, shape: Float64Array): void {
  for (let i = 0; i < SIGNATURE_POINTS; i += 1) {
    const value = shape[i]!;
    if (value < low[i]!) low[i] = value;
    if (value > high[i]!) high[i] = value;
  }
}

function part(node: TreeNode): void {
  const entries = node.entries!;
  let point = 0;
  for (let i = 1; i < SIGNATURE_POINTS; i += 1) {
    if (node.high[i]! - node.low[i]! > node.high[point]! - node.low[point]!) point = i;
  }
  const levels = entries.map(({ signature }) => signature.shape[point]!).sort((a, b) => a - b);
  const level = levels[levels.length >>> 1]!;
  // Many copies of one curve have no place to be parted at: the leaf stays large.
  if (level === levels[0]) return;
  const halves = [createTree(), createTree()] as const;
  for (const entry of entries) {
    const half = halves[entry.signature.shape[point]! < level ? 0 : 1];
    widen(half, entry.signature.shape);
    half.entries!.push(entry);
  }
  node.point = point;
  node.level = level;
  node.entries = null;
  node.halves = halves;
}
