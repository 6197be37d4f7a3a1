import { useEffect, useState } from 'react';
import type { HostInfo } from '../../../src-main/ipc/contract.ts';
import { t } from '../../i18n/text.ts';
import { ProgramLine } from '../../ui/ProgramLine.tsx';
import { Ask } from './Ask.tsx';
import { jobRuns, runJob, today, useJob } from './jobs.ts';
import { useLogbook } from './logbook-store.ts';
import { tryOrSay } from './save-text.ts';
import { storeHost } from './store-host.ts';

/** Where everything is kept on this machine, and the way to a backup and back. */
export function MachineView() {
  const [info, setInfo] = useState<HostInfo | null>(null);
  const { attempts, people, cutOff } = useLogbook();
  useEffect(() => void tryOrSay(() => storeHost().hostInfo()).then(setInfo), []);
  return (
    <div className="log-page" data-testid="machine">
      <section aria-label={t('logbook.machine.heading')}>
        <h3>{t('logbook.machine.heading')}</h3>
        <dl className="log-lines log-narrow">
          <div className="log-line">
            <dt>{t('logbook.machine.folder')}</dt>
            <dd>
              <code data-testid="data-folder">{info?.dataFolder ?? '…'}</code>
            </dd>
          </div>
          <div className="log-line">
            <dt>{t('logbook.machine.attempts')}</dt>
            <dd>{cutOff ? t('logbook.machine.moreThan', { count: attempts.length }) : attempts.length}</dd>
          </div>
          <div className="log-line">
            <dt>{t('logbook.machine.people')}</dt>
            <dd>{people.length}</dd>
          </div>
          <div className="log-line">
            <dt>{'Rimward'}</dt>
            <dd>{info?.version ?? '…'}</dd>
          </div>
        </dl>
        {(info?.notices ?? []).map((line) => (
          <p key={line} className="log-warning">
            <span aria-hidden="true">⚠</span> <ProgramLine line={line} />
          </p>
        ))}
      </section>
      <Backup />
      <p className="log-quiet">
        {t('logbook.machine.stays')} {t('common.caution')}
      </p>
    </div>
  );
}

function Backup() {
  const [asking, setAsking] = useState(false);
  const busy = useJob(jobRuns);
  return (
    <section aria-label={t('logbook.machine.backup')}>
      <h3>{t('logbook.machine.backup')}</h3>
      <p>{t('logbook.machine.backupHolds')}</p>
      <div className="log-buttons">
        <button
          type="button"
          disabled={busy}
          onClick={() => void runJob('backup', () => storeHost().backupStore(`rimward-backup-${today()}`))}
          data-testid="backup"
        >
          {t('logbook.machine.write')}
        </button>
        <button type="button" disabled={busy} onClick={() => setAsking(true)} data-testid="restore">
          {t('logbook.machine.restore')}
        </button>
      </div>
      {asking && (
        <Ask
          question={t('logbook.machine.askRestore')}
          yes={t('logbook.machine.choose')}
          onYes={() => {
            setAsking(false);
            void runJob('restore', () => storeHost().restoreStore());
          }}
          onNo={() => setAsking(false)}
        >
          <p>{t('logbook.machine.setAside')}</p>
        </Ask>
      )}
    </section>
  );
}
