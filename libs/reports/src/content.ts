/**
 * What a report says, as plain data: no page, no font, no colour. `libs/pdf` lays it out, CSV and JSON come from the
 * same content. Text is Unicode, already in the reader's language and zone.
 */
export interface ReportContent {
  /** `batch-record`, `lot-trace`, `season-applications`, `findings`, … */
  readonly kind: string;
  readonly title: string;
  readonly subtitle?: string;
  readonly language: 'en' | 'es';
  readonly operation: {
    readonly name: string;
    readonly address?: string;
    readonly certificate?: string;
    readonly timeZone: string;
  };
  readonly period?: { readonly from: string; readonly to: string };
  /** Local time with zone, already written out; passed in, never read from a clock. */
  readonly preparedAt: string;
  /** The log as it stood: entries, root (base64), and the signed checkpoint text where there is one (printed as a QR code). */
  readonly log: { readonly size: number; readonly root: string; readonly checkpoint?: string };
  /** Said at the head of every report: what it is not, and whose limits come first. */
  readonly notice?: string;
  readonly blocks: readonly Block[];
}

export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string; readonly anchor?: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'note'; readonly tone: 'caution' | 'info'; readonly text: string }
  | {
      readonly kind: 'facts';
      readonly items: readonly { readonly term: string; readonly value: string; readonly was?: string }[];
    }
  | TableBlock
  | { readonly kind: 'verdicts'; readonly items: readonly VerdictLine[] }
  | OxygenChart
  | BatchRibbon
  | TraceFlow
  | { readonly kind: 'blank'; readonly label: string; readonly lines: number }
  | QrCode
  | { readonly kind: 'pageBreak' };

export interface TableBlock {
  readonly kind: 'table';
  readonly name: string;
  readonly caption: string;
  readonly columns: readonly {
    readonly key: string;
    readonly label: string;
    readonly type: 'text' | 'number' | 'quantity' | 'instant' | 'date' | 'verdict';
    readonly width?: number;
  }[];
  /** `text` is what is printed; `value` what CSV and JSON carry; `was` an original behind an amendment, printed struck through. */
  readonly rows: readonly (readonly Cell[])[];
  readonly total?: readonly Cell[];
  readonly empty?: string;
}
export interface Cell {
  readonly text: string;
  readonly value?: number | string | null;
  readonly was?: string;
  /** In a `verdict` column: the shape drawn before the word. */
  readonly mark?: VerdictMark;
  /** The anchor of a heading in the same report. */
  readonly to?: string;
  /** The whole row's record is withdrawn: `text` itself is printed struck through. */
  readonly struck?: boolean;
}
export type VerdictMark = 'met' | 'caution' | 'broken' | 'due' | 'unknown' | 'notApplicable';
export interface VerdictLine {
  readonly mark: VerdictMark;
  /** The words for it, by basis: "not met" (regulation), "outside your limit" (practice). */
  readonly word: string;
  readonly title: string;
  readonly about: string;
  readonly message: string;
  readonly citation: string;
  readonly figures: string;
  /** What belongs to this verdict and stays with it: cause, action, records. */
  readonly notes?: readonly { readonly term: string; readonly value: string }[];
}
export interface OxygenChart {
  readonly kind: 'oxygenChart';
  readonly title: string;
  readonly description: string;
  readonly from: number;
  readonly to: number;
  readonly timeZone: string;
  readonly readings: readonly {
    readonly at: number;
    readonly mgPerL: number;
    readonly saturationMgPerL?: number;
    readonly label?: string;
  }[];
  readonly limitMgPerL: number | null;
  readonly bands: readonly {
    readonly from: number;
    readonly to: number;
    readonly label: string;
    readonly kind: 'air' | 'noAir' | 'brew' | 'hold';
  }[];
  readonly marks: readonly { readonly at: number; readonly label: string }[];
}
export interface BatchRibbon {
  readonly kind: 'batchRibbon';
  readonly title: string;
  readonly description: string;
  readonly from: number;
  readonly to: number;
  readonly timeZone: string;
  readonly lanes: readonly {
    readonly label: string;
    readonly spans: readonly {
      readonly from: number;
      readonly to: number;
      readonly label: string;
      readonly kind: 'air' | 'noAir' | 'brew' | 'hold' | 'apply' | 'fill';
    }[];
    readonly marks: readonly { readonly at: number; readonly label: string }[];
  }[];
}
export interface TraceFlow {
  readonly kind: 'traceFlow';
  readonly title: string;
  readonly description: string;
  readonly columns: readonly {
    readonly label: string;
    readonly nodes: readonly { readonly id: string; readonly label: string; readonly detail?: string }[];
  }[];
  readonly edges: readonly {
    readonly from: string;
    readonly to: string;
    readonly label: string;
    readonly weight: number;
  }[];
}
/** A code to scan (ISO/IEC 18004), with what it leads to in words. */
export interface QrCode {
  readonly kind: 'qrCode';
  readonly text: string;
  readonly label: string;
}
