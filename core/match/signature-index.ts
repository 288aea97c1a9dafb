import type { CurveSignature } from './curve-signature.ts';
import { boxBound, type Query, readyQuery, signatureDistance } from './signature-distance.ts';
import { addToTree, createTree, type TreeEntry, type TreeNode } from './signature-tree.ts';

/** An earlier run that is like the one asked about. */
export interface NearRun {
  readonly id: string;
  /** See `signatureDistance`. */
  readonly distance: number;
  /** Whether both were fed alike; where they were not, say so beside the run. */
  readonly sameFeed: boolean;
}

/** Signatures of the runs of a ledger, for finding those most like a new one. */
export interface SignatureIndex {
  readonly size: number;
  add(id: string, signature: CurveSignature): void;
  /** The `count` runs most like this one, nearest first; `except` (itself) is left out. */
  nearest(signature: CurveSignature, count: number, except?: string): NearRun[];
  /** How many runs the last search compared by warping or its bound. */
  readonly compared: number;
}

/**
 * An empty index. Runs are kept in a tree of boxes around their shapes; a box whose bound is
 * beyond the worst run found so far is left out whole (branch and bound over LB_Keogh). The answer
 * is that of looking at every run; the work grows slower than the ledger.
 */
export function createSignatureIndex(): SignatureIndex {
  const roots = { watts: createTree(), amps: createTree() };
  let size = 0;
  let compared = 0;

  return {
    get size() {
      return size;
    },
    get compared() {
      return compared;
    },
    add(id, signature) {
      addToTree(roots[signature.quantity], { id, signature });
      size += 1;
    },
    nearest(signature, count, except) {
      const best = nearestList(readyQuery(signature), count, except);
      search(roots[signature.quantity], 0, best);
      compared = best.compared;
      return best.runs;
    },
  };
}

interface BestRuns {
  readonly query: Query;
  readonly runs: NearRun[];
  limit: number;
  compared: number;
  take(entry: TreeEntry): void;
}

function nearestList(query: Query, count: number, except: string | undefined): BestRuns {
  const best: BestRuns = {
    query,
    runs: [],
    limit: Number.POSITIVE_INFINITY,
    compared: 0,
    take({ id, signature }) {
      if (id === except) return;
      best.compared += 1;
      const distance = signatureDistance(query, signature, best.limit);
      if (distance >= best.limit) return;
      const { runs } = best;
      const at = runs.findIndex((other) => other.distance > distance);
      const sameFeed = signature.feed === query.signature.feed;
      runs.splice(at === -1 ? runs.length : at, 0, { id, distance, sameFeed });
      if (runs.length > count) runs.pop();
      if (runs.length === count) best.limit = runs[count - 1]!.distance;
    },
  };
  return best;
}

function search(node: TreeNode, bound: number, best: BestRuns): void {
  if (bound >= best.limit) return;
  if (node.halves === null) {
    for (const entry of node.entries!) best.take(entry);
    return;
  }
  const [below, above] = node.halves;
  const boundBelow = boxBound(best.query, below);
  const boundAbove = boxBound(best.query, above);
  const isBelowFirst = boundBelow <= boundAbove;
  search(isBelowFirst ? below : above, isBelowFirst ? boundBelow : boundAbove, best);
  search(isBelowFirst ? above : below, isBelowFirst ? boundAbove : boundBelow, best);
}
