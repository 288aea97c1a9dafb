import { useCallback, useEffect, useRef, useState } from 'react';
import { type Happening, meanwhile, type SeenRun } from '../../core/attention/meanwhile.ts';
import { useHands } from '../probing/use-hands.ts';
import { useActions, useDesk, useDeskState } from '../state/use-desk.ts';
import { reasonWords } from '../strip/reason-words.ts';
import { createAway } from './away.ts';

const MOST_RUNS = 6;
const MOST_HEARD = 50;
const ALARM_WEIGHT = 4;

/** What happened while nobody looked, in ten lines, when somebody comes back to the window. */
export function MeanwhilePanel() {
  const { store } = useDesk();
  const { ask } = useActions();
  const heard = useRef<Happening[]>([]);
  const [shown, setShown] = useState<readonly Happening[]>([]);
  const alarm = useDeskState((state) => state.alarms[0] ?? null);
  const soak = useHands((state) => state.soak?.verdict?.words ?? null);

  const hear = useCallback((text: string | null): void => {
    if (text === null) return;
    heard.current = [
      ...heard.current.slice(-MOST_HEARD),
      { atMs: Date.now(), text, weight: ALARM_WEIGHT },
    ];
  }, []);
  useEffect(() => hear(alarm === null ? null : `${alarm.what} (${alarm.where})`), [alarm, hear]);
  useEffect(() => hear(soak), [soak, hear]);

  useEffect(() => {
    const away = createAway();
    const tellSince = async (time: { fromMs: number; toMs: number }): Promise<void> => {
      const jobId = store.get().bench?.jobId ?? null;
      const kept = (await ask('listRuns', { jobId })) ?? [];
      const during = kept
        .filter((run) => run.kind === 'powered' && (run.endedAt ?? time.toMs) >= time.fromMs)
        .slice(0, MOST_RUNS);
      const runs = await Promise.all(during.map(({ id }) => ask('readRun', { id })));
      const seen: SeenRun[] = runs.filter((one) => one !== null);
      const live = store.get().live;
      // The ledger keeps a live run's stages every few seconds; the window has the newest.
      const fresh = seen.map((one, at) =>
        during[at]?.id === live?.runId && live !== null ? { ...one, report: live.report } : one,
      );
      setShown(meanwhile(time, fresh, heard.current));
    };
    const onLeft = () => away.left(Date.now());
    const onBack = () => {
      const time = away.back(Date.now());
      if (time !== null) void tellSince(time);
    };
    window.addEventListener('blur', onLeft);
    window.addEventListener('focus', onBack);
    return () => {
      window.removeEventListener('blur', onLeft);
      window.removeEventListener('focus', onBack);
    };
  }, [ask, store]);

  if (shown.length === 0) return null;
  return (
    <section className="meanwhile" aria-label="Meanwhile" data-testid="meanwhile">
      <h2>While you were away</h2>
      <ol>
        {shown.map((one) => (
          <li key={`${one.atMs} ${one.text}`} title={reasonWords(one.text)}>
            <span className="quiet">{new Date(one.atMs).toLocaleTimeString()}</span>
            <span>{reasonWords(one.text)}</span>
          </li>
        ))}
      </ol>
      <button type="button" className="plain" onClick={() => setShown([])}>
        Seen
      </button>
    </section>
  );
}
