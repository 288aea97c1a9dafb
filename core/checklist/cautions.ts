/** The usual cautions, worded once and shown at each step where they apply. Common practice. */
export const CAUTIONS = {
  cells:
    'Unplug every cell, coin cells too, before bench power and before the iron. Set swollen, dented or hot cells aside in a fire-safe place, for licensed disposal. Do not sniff at them.',
  wetCells:
    'A cell that got wet may heat hours later: outside, in a fire-safe place, to licensed disposal. Never charge it to see whether it still works.',
  capacitors:
    'Supply capacitors stay charged: discharge them through a resistor and check the volts. Mains and primary sides only with isolation, training and your local rules.',
  static: 'Wrist strap and mat on. Keep clear of earth while a mains-fed part is open.',
  ohms: 'Output off and the rail discharged: check the volts first, every time.',
  firstPower:
    'Stated input volts, never more; limit low, raised only when the draw says why. Eyes on the board: a shorted part burns within seconds.',
  probing:
    'One slip shorts a rail: one hand, fine tip. Backlight boosts carry 20 to 60 V. An earthed supply and an earthed meter can close a loop through the board.',
  injection:
    'Never with a cell attached. Start at 0.3 to 0.5 V, at most the lowest rating the rail can reach, limit low, seconds at a time with eyes on it. Touch nothing: shorted parts pass 150 °C and burn skin.',
  freezing: 'Some freeze sprays burn. Alcohol near hot parts only with no flame and the power off.',
  iron: 'Hot air and iron: cells away, extraction on, eye protection, no alcohol open nearby. The board stays hot for minutes.',
  bath: 'Not in the bath: cells, displays, microphones, optical parts, relays that are not sealed. Nothing flammable in an ultrasonic bath; a cleaner made for it, gloves, extraction.',
  solvents:
    'Alcohol and cleaners: extraction, gloves, eye protection, no open flame and no hot iron.',
  drying: 'Warm air, below what the plastics bear. No power until dry under the shields and chips.',
  machinery:
    'Disconnect motors, valves and every field output first: a board that comes back to life moves machinery. Lock out by the site rules.',
  loadsBack:
    'Loads move when the board wakes: guards on, people clear, lock-out lifted only by whoever set it.',
  soak: 'Not unattended: stop at smell, smoke or a part too hot to touch.',
  charging: 'A charging cell heats: on a fire-safe surface, watched, stopped if it swells.',
  backlight: 'The backlight boost is 20 to 60 V and its capacitor holds it: keep fingers off.',
} as const;
