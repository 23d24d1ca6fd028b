export { archiveFiles, type Archived } from './archive.ts';
