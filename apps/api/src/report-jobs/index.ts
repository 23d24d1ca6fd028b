export { askedReport, jobAddress, jobState, type AskedReport, type JobView } from './job.ts';
export { ReportFiles } from './report-files.ts';
export { ReportJobs } from './report-jobs.ts';
export { ReportMaker } from './report-maker.ts';
export { ReportQueue } from './report-queue.ts';
