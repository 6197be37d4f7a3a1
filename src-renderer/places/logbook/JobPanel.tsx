import { t } from '../../i18n/text.ts';
import { ProgramLine } from '../../ui/ProgramLine.tsx';
import { cancelJob, forgetJob, jobRuns, useJob } from './jobs.ts';
import { SampleRerun } from './SampleRerun.tsx';

/** Progress, end and report of long work; stands above every tab until it is put away. */
export function JobPanel() {
  const state = useJob();
  const { kind, job, progress, problem } = state;
  if (kind === null) return null;
  const runs = jobRuns(state);
  const title = t(`logbook.job.${kind}`);
  const share = progress === null || progress.of === 0 ? undefined : progress.done / progress.of;
  return (
    <section className="log-job" aria-label={title} data-testid="job" data-state={progress?.state ?? 'running'}>
      <div className="log-job-line">
        <b>{job === null ? title : t('logbook.job.withFile', { job: title, file: job.fileName })}</b>
        {runs && <progress value={share} max={1} aria-label={title} />}
        {progress !== null && progress.of > 0 && (
          <span data-testid="job-count">{t('logbook.job.count', { done: progress.done, of: progress.of })}</span>
        )}
        <span role="status" lang={problem === null ? undefined : 'en'}>
          {problem ?? t(progress === null ? 'logbook.job.waiting' : `logbook.job.${progress.state}`)}
        </span>
        {runs && job !== null && (
          <button type="button" onClick={() => void cancelJob()} data-testid="job-cancel">
            {t('logbook.does.stop')}
          </button>
        )}
        {!runs && (
          <button type="button" onClick={forgetJob} data-testid="job-close">
            {t('logbook.does.putAway')}
          </button>
        )}
      </div>
      {progress !== null && progress.lines.length > 0 && (
        <ul className="log-job-report" data-testid="job-lines">
          {progress.lines.map((line, at) => (
            <li key={at}>
              <ProgramLine line={line} />
            </li>
          ))}
        </ul>
      )}
      {progress?.toReplay !== undefined && progress.toReplay.length > 0 && <SampleRerun sample={progress.toReplay} />}
    </section>
  );
}
