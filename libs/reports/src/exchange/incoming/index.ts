export { importKinds, importRequest, previewImport, type ImportKind, type ImportRequest } from './preview.ts';
export type { Setting } from './table.ts';
export type { CellProblem, ImportPreview, PreviewColumn, PreviewRow } from './types.ts';
export { importPreview } from './types.ts';
