import { csvOf, jsonOf, tablesOf, type ReportContent } from '@furrowmark/reports';

/** Attaches what the report shows as data: everything as JSON, each table as CSV. */
export function attachData(doc: PDFKit.PDFDocument, content: ReportContent, date: Date, description: string): void {
  const attach = (name: string, text: string, mediaType: string, relationship: 'Source' | 'Data'): void => {
    doc.file(Buffer.from(text, 'utf8'), {
      name,
      type: mediaType,
      description: `${description}: ${name}`,
      relationship,
      creationDate: date,
      modifiedDate: date,
    });
  };
  attach(`${content.kind}.json`, `${JSON.stringify(jsonOf(content), null, 1)}\n`, 'application/json', 'Source');
  for (const table of tablesOf(content)) {
    attach(`${content.kind}.${table.name}.csv`, csvOf(table), 'text/csv', 'Data');
  }
}
