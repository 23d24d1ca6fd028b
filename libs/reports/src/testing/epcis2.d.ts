declare module 'epcis2.js' {
  /** A document of EPCIS events, as the library understands one. */
  export class EPCISDocument {
    constructor(document: object);
    toObject(): unknown;
  }
}
