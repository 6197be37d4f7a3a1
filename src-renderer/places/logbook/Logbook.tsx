import { useEffect } from 'react';
import { usePlace } from '../../stores/place-store.ts';
import { ProgramLine } from '../../ui/ProgramLine.tsx';
import { AttemptList } from './AttemptList.tsx';
import { AttemptPage } from './AttemptPage.tsx';
import { ComparePage } from './ComparePage.tsx';
import { ClassView } from './class/ClassView.tsx';
import { PeopleView } from './class/PeopleView.tsx';
import { CurveView } from './curve/CurveView.tsx';
import { JobPanel } from './JobPanel.tsx';
import { LIST, type LogbookTab, loadLogbook, openPage, showTab, takeErrand, useLogbook } from './logbook-store.ts';
import { MachineView } from './MachineView.tsx';
import { NoticeLine } from './NoticeLine.tsx';
import { OutsideOpening } from './outside/OutsideOpening.tsx';
import { ReplayPage } from './replay/ReplayPage.tsx';
import './attempt.css';
import './logbook.css';
import { t } from '../../i18n/text.ts';

const TABS: readonly LogbookTab[] = ['attempts', 'curve', 'class', 'people', 'outside', 'machine'];

/** Every attempt of this machine's people: read, replayed, compared, charted, carried to another machine. */
export function Logbook() {
  const errand = usePlace((state) => state.errand);
  const tab = useLogbook((state) => state.tab);
  useEffect(() => void loadLogbook(), []);
  useEffect(() => {
    if (errand !== null) takeErrand(usePlace.getState().takeErrand());
  }, [errand]);
  return (
    <div className="logbook" data-testid="logbook">
      <nav className="log-tabs" aria-label={t('logbook.tabs.label')}>
        {TABS.map((id) => (
          <button
            key={id}
            type="button"
            aria-current={tab === id ? 'page' : undefined}
            onClick={() => showTab(id)}
            data-testid={`tab-${id}`}
          >
            {t(`logbook.tabs.${id}`)}
          </button>
        ))}
      </nav>
      <JobPanel />
      <NoticeLine />
      <div className="log-body">
        <Body />
      </div>
    </div>
  );
}

function Body() {
  const tab = useLogbook((state) => state.tab);
  const state = useLogbook((all) => all.state);
  const problem = useLogbook((all) => all.problem);
  if (state === 'failed') return <Failed problem={problem ?? ''} />;
  if (state === 'loading') return <p className="log-quiet">{t('logbook.reading.logbook')}</p>;
  if (tab === 'curve') return <CurveView />;
  if (tab === 'class') return <ClassView />;
  if (tab === 'people') return <PeopleView />;
  if (tab === 'outside') return <OutsideOpening />;
  if (tab === 'machine') return <MachineView />;
  return <Attempts />;
}

function Attempts() {
  const page = useLogbook((state) => state.page);
  if (page.kind === 'list') return <AttemptList />;
  const back = () => openPage(LIST);
  if (page.kind === 'attempt') return <AttemptPage key={page.id} id={page.id} onBack={back} />;
  if (page.kind === 'replay') return <ReplayPage key={page.id} id={page.id} step={page.step} />;
  return <ComparePage key={page.ids.join()} ids={page.ids} onBack={back} />;
}

function Failed({ problem }: { readonly problem: string }) {
  return (
    <div className="log-failed" role="alert">
      <h2>{t('logbook.failed.title')}</h2>
      <p>
        <ProgramLine line={problem} />
      </p>
      <button type="button" onClick={() => void loadLogbook()}>
        {t('logbook.failed.again')}
      </button>
    </div>
  );
}
