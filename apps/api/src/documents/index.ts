export { DocumentFiles, type Kept } from './document-files.ts';
export { Documents, mostBytes, type StoredDocument } from './documents.ts';
export { mediaTypes, type MediaType } from './media-types.ts';
