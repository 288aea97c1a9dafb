/** Everything that has a key. `anywhere` keys work while typing too; the others wait. */
export const KEY_MAP = {
  outputOff: { key: 'F9', shown: 'F9', does: 'Output off, at once', where: 'anywhere' },
  outputOn: { key: 'o', shown: 'O', does: 'Output on: arms it, Enter switches', where: 'sheet' },
  setVolts: { key: 'v', shown: 'V', does: 'Set volts', where: 'sheet' },
  setLimit: { key: 'l', shown: 'L', does: 'Set the current limit', where: 'sheet' },
  wakeRequest: { key: 'w', shown: 'W', does: 'Mark a wake request', where: 'sheet' },
  mark: { key: 'm', shown: 'M', does: 'Mark this moment', where: 'sheet' },
  note: { key: 'n', shown: 'N', does: 'Write a note and mark it', where: 'sheet' },
  takeReading: { key: 'r', shown: 'R', does: 'Take the reading from the meter', where: 'sheet' },
  typeReading: { key: 't', shown: 'T', does: 'Type the reading', where: 'sheet' },
  probing: { key: 'b', shown: 'B', does: 'Hands-free: start or stop', where: 'sheet' },
  probeForce: { key: 'y', shown: 'Y', does: 'Hands-free: take it as it is', where: 'sheet' },
  probeUndo: { key: 'u', shown: 'U', does: 'Hands-free: take the last one back', where: 'sheet' },
  probeSkip: { key: 'k', shown: 'K', does: 'Hands-free: pass over this point', where: 'sheet' },
  pedal: {
    key: 'F8',
    shown: 'F8',
    does: 'Pedal: takes the reading, confirms an armed output, marks a wake request; held, it puts current in',
    where: 'anywhere',
  },
  itemDone: { key: 'd', shown: 'D', does: 'Next checklist item done', where: 'sheet' },
  itemSkip: { key: 's', shown: 'S', does: 'Skip the item, with a reason', where: 'sheet' },
  quickPart: { key: 'q', shown: 'Q', does: 'A part lifted or fitted, in a word', where: 'sheet' },
  initials: { key: 'i', shown: 'I', does: 'Your initials', where: 'sheet' },
  guard: { key: 'e', shown: 'E', does: 'Guard: limits on this run', where: 'sheet' },
  feed: { key: 'f', shown: 'F', does: 'Where the board is fed', where: 'sheet' },
  span1: { key: '1', shown: '1', does: 'Trace: newest 30 s', where: 'sheet' },
  span2: { key: '2', shown: '2', does: 'Trace: newest 2 min', where: 'sheet' },
  span3: { key: '3', shown: '3', does: 'Trace: newest 10 min', where: 'sheet' },
  span4: { key: '4', shown: '4', does: 'Trace: the whole run', where: 'sheet' },
  follow: { key: 'g', shown: 'G', does: 'Go to the newest and follow', where: 'sheet' },
  trace: { key: 'x', shown: 'X', does: 'To the trace: arrows move, + and − zoom', where: 'sheet' },
  play: { key: 'p', shown: 'P', does: 'Replay: play or pause', where: 'replay' },
  faster: { key: '.', shown: '.', does: 'Replay: faster', where: 'replay' },
  slower: { key: ',', shown: ',', does: 'Replay: slower', where: 'replay' },
  newJob: { key: 'j', shown: 'J', does: 'Take in a job', where: 'anywhere but fields' },
  copies: { key: '0', shown: '0', does: 'Backups and copies', where: 'job book' },
  search: { key: '/', shown: '/', does: 'Search the job book', where: 'job book' },
  showSheet: { key: 'F1', shown: 'F1', does: 'Power-up sheet', where: 'anywhere' },
  showJobs: { key: 'F2', shown: 'F2', does: 'Job book', where: 'anywhere' },
  showReplay: { key: 'F3', shown: 'F3', does: 'Replay', where: 'anywhere' },
  showInstruments: { key: 'F4', shown: 'F4', does: 'Instruments', where: 'anywhere' },
  showCompare: { key: 'F7', shown: 'F7', does: 'Compare runs', where: 'anywhere' },
  showRails: { key: 'F5', shown: 'F5', does: 'Rails of the job', where: 'anywhere' },
  showBoards: { key: 'F6', shown: 'F6', does: 'Boards and their rails', where: 'anywhere' },
  showDonors: { key: 'F10', shown: 'F10', does: 'Donor boards', where: 'anywhere' },
  showChecklists: {
    key: ';',
    shown: ';',
    does: 'Checklists of the shop',
    where: 'anywhere but fields',
  },
  handsFree: { key: 'h', shown: 'H', does: 'Rails: take readings hands free', where: 'rails' },
  cannotReach: { key: 'c', shown: 'C', does: 'Rails: cannot reach this point', where: 'rails' },
  shortHunt: { key: 'z', shown: 'Z', does: 'Rails: hunt a short, or back', where: 'rails' },
  raiseLimit: {
    key: 'PageUp',
    shown: 'Page up',
    does: 'Short hunt: raise the limit by a step',
    where: 'rails',
  },
  lowerLimit: {
    key: 'PageDown',
    shown: 'Page down',
    does: 'Short hunt: lower the limit by a step',
    where: 'rails',
  },
  seenAlarm: { key: 'a', shown: 'A', does: 'Alarm seen', where: 'anywhere but fields' },
  keyList: { key: '?', shown: '?', does: 'This list', where: 'anywhere but fields' },
} as const;

export type KeyAction = keyof typeof KEY_MAP;

const ACTION_OF = new Map<string, KeyAction>(
  (Object.keys(KEY_MAP) as KeyAction[]).map((action) => [KEY_MAP[action].key, action]),
);

/** What a key press asks for, from its key and whether a field is being typed in. */
export function actionFor(press: {
  readonly key: string;
  readonly isTyping: boolean;
  readonly hasModifier: boolean;
  readonly lettersAreOn: boolean;
}): KeyAction | null {
  if (press.hasModifier) return null;
  const key = press.key.length === 1 ? press.key.toLowerCase() : press.key;
  const action = ACTION_OF.get(key);
  if (action === undefined) return null;
  if (KEY_MAP[action].where === 'anywhere') return action;
  return press.isTyping || !press.lettersAreOn ? null : action;
}
