import type { BoardPlan } from './board-plan.ts';
import { PLOVER_BOARDS } from './boards/plover-boards.ts';
import { TERN_BOARDS } from './boards/tern-boards.ts';
import { WREN_BOARDS } from './boards/wren-boards.ts';

/** Every board on the pretend bench's shelf. All are invented. */
export const BOARD_SHELF: readonly BoardPlan[] = [...TERN_BOARDS, ...PLOVER_BOARDS, ...WREN_BOARDS];
