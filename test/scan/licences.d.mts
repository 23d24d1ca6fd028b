export function licenceFaults(lock: { readonly packages: Readonly<Record<string, object>> }): string[];
