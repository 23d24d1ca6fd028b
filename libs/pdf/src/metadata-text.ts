/**
 * Text for the document's information. pdfkit writes it twice: into the information dictionary as it is, and into the XMP
 * packet without escaping, where a farm called "Root & Branch" would break the XML. Turned to a string it is escaped;
 * its letters, which the dictionary takes, are as written.
 */
export class MetadataText extends String {
  override toString(): string {
    return this.valueOf().replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
  }
}
