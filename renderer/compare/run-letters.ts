/** Each run of a comparison has a letter, a hue and a dash of its own: hue never alone. */
export const RUN_LETTERS = ['A', 'B', 'C', 'D', 'E', 'F'] as const;
export const RUN_DASHES = ['none', '9 4', '2 4', '14 4 2 4', '5 3', '1 6'] as const;
