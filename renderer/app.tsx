import { MeanwhilePanel } from './attention/meanwhile-panel.tsx';
import { BoardsView } from './boards/boards-view.tsx';
import { CompareView } from './compare/compare-view.tsx';
import { DonorsView } from './donors/donors-view.tsx';
import { AlarmLine } from './frame/alarm-line.tsx';
import { Heard } from './frame/heard.tsx';
import { TopBar } from './frame/top-bar.tsx';
import { TroubleLine } from './frame/trouble-line.tsx';
import { ViewGuard } from './frame/view-guard.tsx';
import { InstrumentsView } from './instruments/instruments-view.tsx';
import { JobBook } from './job-book/job-book.tsx';
import { Scans } from './keys/scans.tsx';
import { PretendStrip } from './pretend/pretend-strip.tsx';
import { RailsView } from './rails/rails-view.tsx';
import { ReplayView } from './replay/replay-view.tsx';
import { PowerUpSheet } from './sheet/power-up-sheet.tsx';
import { Sounds } from './sounds/sounds.tsx';
import { useDeskState } from './state/use-desk.ts';
import { TemplatesView } from './templates/templates-view.tsx';

/** The window: one bar on every view, then the view. */
export function App() {
  const view = useDeskState((state) => state.view);
  return (
    <div className="app">
      <TopBar />
      <AlarmLine />
      <TroubleLine />
      <MeanwhilePanel />
      <PretendStrip />
      <ViewGuard key={view} name={view}>
        {view === 'sheet' && <PowerUpSheet />}
        {view === 'jobs' && <JobBook />}
        {view === 'replay' && <ReplayView />}
        {view === 'instruments' && <InstrumentsView />}
        {view === 'compare' && <CompareView />}
        {view === 'rails' && <RailsView />}
        {view === 'boards' && <BoardsView />}
        {view === 'donors' && <DonorsView />}
        {view === 'checklists' && <TemplatesView />}
      </ViewGuard>
      <Heard />
      <Scans />
      <Sounds />
    </div>
  );
}
