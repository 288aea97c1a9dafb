import { type AttentionSettings, followed } from '../../core/attention/attention-settings.ts';
import { Pick } from '../parts/pick.tsx';
import { handsOf } from '../probing/hands-store.ts';
import { useHands } from '../probing/use-hands.ts';
import { useActions, useDesk } from '../state/use-desk.ts';
import { isPedalHeld, setPedalHeld } from './pedal-mode.ts';

const TONES = [
  ['toneTaken', 'A reading was taken, or refused'],
  ['toneAlarm', 'Alarm: guard, lost instrument, failed soak'],
  ['toneStage', 'The stage changed'],
  ['speak', 'Say the value aloud'],
] as const satisfies readonly (readonly [keyof AttentionSettings, string])[];

const NOTICES = [
  ['noticeStage', 'The stage changed'],
  ['noticeLost', 'An instrument was lost'],
  ['noticeGuard', 'A guard tripped'],
  ['noticeSoak', 'A soak ended'],
] as const satisfies readonly (readonly [keyof AttentionSettings, string])[];

const FOLLOWED_WORDS: Readonly<Record<AttentionSettings['follow'], string>> = {
  off: 'nothing',
  draw: 'the draw',
  ohms: 'the ohms',
  millivolts: 'the millivolts',
};

/** Sounds, notifications and the pedal: each on or off, kept. */
export function AttentionPanel() {
  const settings = useHands((state) => state.attention);
  const { bridge } = useDesk();
  const { ask } = useActions();
  const change = async (part: Partial<AttentionSettings>): Promise<void> => {
    const kept = await ask('setAttention', { ...settings, ...part });
    if (kept !== null) handsOf(bridge).change({ attention: kept });
  };
  const check = ([name, words]: readonly [keyof AttentionSettings, string]) => (
    <label key={name} className="check">
      <input
        type="checkbox"
        checked={settings[name] === true}
        onChange={(event) => void change({ [name]: event.target.checked })}
      />
      {words}
    </label>
  );
  return (
    <section className="attention" aria-label="Sounds, notifications and pedal">
      <fieldset>
        <legend>Sounds</legend>
        {TONES.map(check)}
        <Pick
          label="A tone whose pitch follows"
          value={settings.follow}
          onPick={(value) => void change({ follow: followed.parse(value) })}
        >
          {followed.options.map((what) => (
            <option key={what} value={what}>
              {FOLLOWED_WORDS[what]}
            </option>
          ))}
        </Pick>
      </fieldset>
      <fieldset>
        <legend>Notifications on the desktop</legend>
        {NOTICES.map(check)}
      </fieldset>
      <fieldset>
        <legend>Pedal that types F8</legend>
        <p className="quiet">
          Takes the reading while hands-free is on, confirms an armed output, else marks a wake
          request.
        </p>
        {check(['keysAnywhere', 'F8 and F9 also while another window is in front'])}
        <label className="check">
          <input
            type="checkbox"
            defaultChecked={isPedalHeld()}
            onChange={(event) => setPedalHeld(event.target.checked)}
          />
          An armed output is on only while the pedal is held
        </label>
      </fieldset>
    </section>
  );
}
