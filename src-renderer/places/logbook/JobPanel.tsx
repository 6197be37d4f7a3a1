import { cancelJob, forgetJob, type JobKind, jobRuns, useJob } from './jobs.ts';
import { SampleRerun } from './SampleRerun.tsx';

const TITLE: Readonly<Record<JobKind, string>> = {
  export: 'Writing the bundle',
  import: 'Taking in the bundle',
  backup: 'Writing the backup',
  restore: 'Restoring from the backup',
};
const STATE_WORDS = { running: 'running', finished: 'done', cancelled: 'stopped', failed: 'failed' } as const;

/** Progress, end and report of long work; stands above every tab until it is put away. */
export function JobPanel() {
  const state = useJob();
  const { kind, job, progress, problem } = state;
  if (kind === null) return null;
  const runs = jobRuns(state);
  const share = progress === null || progress.of === 0 ? undefined : progress.done / progress.of;
  return (
    <section className="log-job" aria-label={TITLE[kind]} data-testid="job" data-state={progress?.state ?? 'running'}>
      <div className="log-job-line">
        <b>
          {TITLE[kind]}
          {job === null ? '' : `: ${job.fileName}`}
        </b>
        {runs && <progress value={share} max={1} aria-label={TITLE[kind]} />}
        {progress !== null && progress.of > 0 && (
          <span data-testid="job-count">
            {progress.done} of {progress.of}
          </span>
        )}
        <span role="status">{problem ?? (progress === null ? 'waiting for a file' : STATE_WORDS[progress.state])}</span>
        {runs && job !== null && (
          <button type="button" onClick={() => void cancelJob()} data-testid="job-cancel">
            Stop
          </button>
        )}
        {!runs && (
          <button type="button" onClick={forgetJob} data-testid="job-close">
            Put away
          </button>
        )}
      </div>
      {progress !== null && progress.lines.length > 0 && (
        <ul className="log-job-report" data-testid="job-lines">
          {progress.lines.map((line, at) => (
            <li key={at}>{line}</li>
          ))}
        </ul>
      )}
      {progress?.toReplay !== undefined && progress.toReplay.length > 0 && <SampleRerun sample={progress.toReplay} />}
    </section>
  );
}
