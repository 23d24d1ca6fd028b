export {
  fileName,
  forms,
  isForm,
  reportFile,
  ReportNotMade,
  type FileRequest,
  type Form,
  type ReportFile,
} from './report-file.ts';
export { Reports, type ReportRequest } from './reports.ts';
