import { createContext } from 'react';
import type { ShownBand } from './shown-band.ts';

/** The band behind the trace: handed past the frame and the figure, which need not know. */
export const BandContext = createContext<ShownBand | null>(null);
