export function lockFaults(
  lock: { readonly packages: Readonly<Record<string, object>> },
  manifest: { readonly allowScripts: Readonly<Record<string, boolean>> },
): string[];
