/** Why the service will not have a record, in its own words. */
export interface Refusal {
  readonly title: string;
  readonly detail: string;
  readonly errors: readonly { readonly pointer: string; readonly detail: string }[];
}

/** A record as it is sent: the client's members only. Its data was checked by the domain's schema before it got here. */
export interface SentRecord {
  readonly id: string;
  readonly type: string;
  readonly version: number;
  readonly occurredAt: string;
  readonly plusMinusMinutes?: number;
  readonly enteredAt?: string;
  readonly performedBy?: string;
  readonly origin?: string;
  readonly data: Readonly<Record<string, unknown>>;
}

/** A record that this device holds until it has come back from the log itself. */
export interface Queued {
  readonly id: string;
  readonly operationId: string;
  /** Order of entry on this device: the order of sending. */
  readonly order: number;
  readonly record: SentRecord;
  /** Who held the shared phone when it was entered; absent where nobody had said so. */
  readonly by?: { readonly accountId: string; readonly name: string } | undefined;
  readonly state:
    | { readonly kind: 'waiting' }
    /** The service has it; it stays here until the record itself was read back. */
    | { readonly kind: 'recorded'; readonly seq: number; readonly recordedAt: string }
    /** The service will not have it. It stays until a person changes it or lets it go. */
    | { readonly kind: 'refused'; readonly problem: Refusal };
}

/** A photo or paper that goes with a record. Sent before the records; the record names its hash either way. */
export interface QueuedFile {
  readonly sha256: string;
  readonly operationId: string;
  readonly blob: Blob;
  readonly mediaType: string;
  readonly title: string;
}

/** A picture, small enough to send on one bar of reception, and its document. */
export interface Photo {
  readonly documentId: string;
  readonly file: QueuedFile;
}
