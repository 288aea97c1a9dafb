import type { BoardPlan } from './board-plan.ts';
import { PLOVER_BOARD } from './boards/plover-board.ts';
import { TERN_BOARDS } from './boards/tern-boards.ts';
import { WREN_BOARD } from './boards/wren-board.ts';

/** Every board on the pretend bench's shelf. All are invented. */
export const BOARD_SHELF: readonly BoardPlan[] = [...TERN_BOARDS, PLOVER_BOARD, WREN_BOARD];
