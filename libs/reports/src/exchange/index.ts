export { epcisDocument, type EpcisDocument, type EpcisEvent, type Gs1Keys, type Wanted } from './epcis/index.ts';
export { dueCalendar, type Due } from './calendar.ts';
export { fieldMap, type FieldFeature, type FieldMap } from './field-map.ts';
export { gs1CheckDigit, gs1Fault, type Gs1Key } from './gs1.ts';
export {
  importKinds,
  importPreview,
  importRequest,
  previewImport,
  type ImportKind,
  type ImportPreview,
  type ImportRequest,
  type PreviewRow,
  type Setting as ImportSetting,
} from './incoming/index.ts';
