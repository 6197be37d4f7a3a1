import { useEffect, useState } from 'react';
import { TEACHING_CAUTION } from '../../../physics/index.ts';
import type { HostInfo } from '../../../src-main/ipc/contract.ts';
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
      <section aria-label="What is kept here">
        <h3>What is kept here</h3>
        <dl className="log-lines log-narrow">
          <div className="log-line">
            <dt>Folder</dt>
            <dd>
              <code data-testid="data-folder">{info?.dataFolder ?? '…'}</code>
            </dd>
          </div>
          <div className="log-line">
            <dt>Attempts</dt>
            <dd>{cutOff ? `more than ${attempts.length}` : attempts.length}</dd>
          </div>
          <div className="log-line">
            <dt>People</dt>
            <dd>{people.length}</dd>
          </div>
          <div className="log-line">
            <dt>Rimward</dt>
            <dd>{info?.version ?? '…'}</dd>
          </div>
        </dl>
        {(info?.notices ?? []).map((line) => (
          <p key={line} className="log-warning">
            ⚠ {line}
          </p>
        ))}
      </section>
      <Backup />
      <p className="log-quiet">
        Everything stays on this machine; nothing is sent anywhere. Whoever can read the folder can read the attempts
        and the names. {TEACHING_CAUTION}
      </p>
    </div>
  );
}

function Backup() {
  const [asking, setAsking] = useState(false);
  const busy = useJob(jobRuns);
  return (
    <section aria-label="Backup">
      <h3>Backup</h3>
      <p>
        One file with people, classes, attempts with every command, the scenarios, drafts and boards made here, and the
        limits of the course. Photographs and the settings of this screen are not in it.
      </p>
      <div className="log-buttons">
        <button
          type="button"
          disabled={busy}
          onClick={() => void runJob('backup', () => storeHost().backupStore(`rimward-backup-${today()}`))}
          data-testid="backup"
        >
          Write a backup
        </button>
        <button type="button" disabled={busy} onClick={() => setAsking(true)} data-testid="restore">
          Restore from a backup
        </button>
      </div>
      {asking && (
        <Ask
          question="Put a backup in the place of what is here?"
          yes="Choose the backup"
          onYes={() => {
            setAsking(false);
            void runJob('restore', () => storeHost().restoreStore());
          }}
          onNo={() => setAsking(false)}
        >
          <p>What is here now is set aside in the folder first, so that nothing is lost.</p>
        </Ask>
      )}
    </section>
  );
}
