import { combineParts } from '../parts/combine-parts.ts';
import type { DonorPart, PartPlace } from '../parts/equivalence.ts';
import { judgeEquivalence } from '../parts/judge-equivalence.ts';
import { parsePart } from '../parts/parse-part.ts';
import { kindOfDesignator, type PartSpec, UNKNOWN_PART } from '../parts/part-spec.ts';
import type { DonorBoard, DonorMatch, DonorSearch, ModelPart } from './donor-board.ts';

/** The part that is wanted and where it belongs. */
export interface WantedPart {
  readonly spec: PartSpec;
  /** '' = not known. */
  readonly designator: string;
  /** Key of the board's model (`boardKey`); null = board unknown. */
  readonly boardKey: string | null;
  readonly place: PartPlace;
}

const MOST = 60;

/**
 * Looks through every board on the shelves for parts that would do, each judged rule by rule, equal
 * ones first, the same place on a board of the same model before others. `keyOf` gives a model's key.
 */
export function findDonors(
  wanted: WantedPart,
  donors: readonly DonorBoard[],
  keyOf: (boardModel: string) => string | null,
): DonorSearch {
  const judged = donors.flatMap((donor) =>
    donor.left.map((part): DonorMatch & { readonly spec: PartSpec; readonly near: boolean } => {
      const near = isSamePlace(wanted, part, keyOf(donor.boardModel));
      const offered = donorPart(part, near);
      const original = {
        spec: wanted.spec,
        biasCurve: null,
        pinout: null,
        pairedByFirmware: null,
      };
      return {
        donorId: donor.id,
        boardModel: donor.boardModel,
        shelf: donor.shelf,
        part,
        equivalence: judgeEquivalence(original, offered, wanted.place),
        spec: offered.spec,
        near,
      };
    }),
  );
  // Of a part without a value only its own place on a board of its model can be told.
  const isKnown = wanted.spec.value !== null || wanted.spec.marking !== null;
  const isWorth = (match: (typeof judged)[number]) =>
    match.equivalence.verdict !== 'not-equal' && (isKnown || match.near);
  const order = { equal: 0, 'not-ruled-out': 1, 'not-equal': 2 } as const;
  const found = judged
    .filter(isWorth)
    .sort(
      (a, b) =>
        order[a.equivalence.verdict] - order[b.equivalence.verdict] ||
        Number(b.near) - Number(a.near),
    );
  const canCombine =
    found.every(({ equivalence }) => equivalence.verdict !== 'equal') &&
    wanted.spec.value !== null &&
    wanted.spec.value > 0 &&
    ['resistor', 'capacitor', 'inductor'].includes(wanted.spec.kind ?? '');
  const combinations = canCombine
    ? combineParts(
        wanted.spec,
        judged.map(({ spec }) => ({ spec, count: 1 })),
        wanted.place,
      )
    : [];
  return {
    wanted: wanted.spec,
    matches: found.slice(0, MOST).map(({ spec: _, near: __, ...match }) => match),
    notEqual: judged.length - found.length,
    lookedThrough: judged.length,
    combinations,
    stock: judged.map(
      ({ part, boardModel, shelf }) =>
        `${part.designator} of ${boardModel}${shelf === '' ? '' : `, shelf ${shelf}`}`,
    ),
    why: found.length > 0 ? null : whyNone(donors.length, judged.length),
  };
}

function whyNone(boards: number, parts: number): string {
  if (boards === 0) return 'There is no donor board on the shelves.';
  if (parts === 0) return 'Nobody has listed what the donor boards carry.';
  return `None of the ${parts} parts listed on the shelves would do.`;
}

function isSamePlace(wanted: WantedPart, part: ModelPart, donorKey: string | null): boolean {
  return (
    wanted.boardKey !== null &&
    donorKey === wanted.boardKey &&
    part.designator.toUpperCase() === wanted.designator.trim().toUpperCase()
  );
}

function donorPart(part: ModelPart, isSame: boolean): DonorPart {
  const kind = kindOfDesignator(part.designator);
  const spec = part.text === '' ? { ...UNKNOWN_PART, kind } : parsePart(part.text, kind).spec;
  return {
    spec,
    knownFrom: isSame ? 'same-place' : part.knownFrom,
    measured: null,
    biasCurve: null,
    heightMm: null,
    pinout: null,
  };
}
