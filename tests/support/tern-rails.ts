/** Five rails of the invented Tern 14, as a person pastes them from a spreadsheet. */
export const TERN_RAILS = [
  ['Rail', 'Volts', 'Tolerance', 'Fed by', 'Through', 'Enabled by', 'Points', 'Ohms'],
  ['DC_FUSED', '19', '10%', '', '', '', 'F1 board side', '150k'],
  ['MAIN_8V6', '8.6', '5%', 'DC_FUSED', 'converter', '', 'MAIN_8V6', '8k2'],
  ['ALW_3V3', '3.3', '5%', 'MAIN_8V6', 'converter', '', 'ALW_3V3', '2k7'],
  ['SYS_5V', '5', '5%', 'MAIN_8V6', 'converter', 'ALW_3V3', 'SYS_5V', '900'],
  ['SYS_3V3', '3.3', '5%', 'MAIN_8V6', 'converter', 'ALW_3V3', 'SYS_3V3:2', '420'],
]
  .map((cells) => cells.join('\t'))
  .join('\n');

/** The same with what is stated of the whole board, as the table is sent to be saved. */
export const TERN_TABLE = `${TERN_RAILS}\n# stated input V\t19\n# stated limit A\t2.5\n# running draw A\t0.9\n# runs flat\tno\n`;
