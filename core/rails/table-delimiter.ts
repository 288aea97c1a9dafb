/**
 * What stands between the cells of a pasted or opened table: a tab if there is one in the first row
 * that says something, else whichever of semicolon and comma there are more of (a semicolon when they
 * are as many: then the commas are decimal).
 */
export function tableDelimiter(text: string): '\t' | ';' | ',' {
  const line = text.split('\n').find((each) => each.trim() !== '' && !each.startsWith('#')) ?? '';
  if (line.includes('\t')) return '\t';
  // Points are written with semicolons inside quotes.
  const plain = line.replace(/"[^"]*"/g, '');
  const count = (sign: string) => plain.split(sign).length - 1;
  return count(';') > 0 && count(';') >= count(',') ? ';' : ',';
}
