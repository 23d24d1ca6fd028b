export declare const root: string;
export declare const pinnedNode: string;
export declare const nodeOptions: readonly string[];
