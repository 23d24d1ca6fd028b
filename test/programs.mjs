// Programs that tests look at our output with: they read PDFs back, follow QR codes, drive the page, check logs.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const needed = [
  { program: 'pdftotext', package: 'poppler-utils' },
  { program: 'qpdf', package: 'qpdf' },
  { program: 'zbarimg', package: 'zbar-tools' },
  { program: 'chromium', package: 'chromium' },
  // Outside readers of the log's format.
  { program: 'go', package: 'golang-go' },
  { program: '/usr/share/gocode/src/golang.org/x/mod/sumdb/tlog', package: 'golang-golang-x-mod-dev' },
  { program: '/usr/bin/python3', package: 'python3' },
  // A clock that tests can set wrong for a process of theirs.
  { program: 'faketime', package: 'faketime' },
  // The validator of archival PDFs and what it needs.
  { program: 'java', package: 'default-jre-headless' },
  { program: '/usr/share/java/preflight.jar', package: 'libpdfbox2-java' },
  { program: '/usr/share/java/commons-io.jar', package: 'libcommons-io-java' },
  { program: '/usr/share/java/javax.activation.jar', package: 'libactivation-java' },
  { program: '/usr/share/java/jaxb-api.jar', package: 'libjaxb-api-java' },
];

/** Installs what is missing from Debian's packages; throws with what to do where that is not possible. */
export function installPrograms() {
  const missing = needed.filter(({ program }) => !present(program));
  if (missing.length === 0) return;
  const names = missing.map((one) => one.package);
  const byHand = `Install ${names.join(', ')} (on Debian and Ubuntu: apt-get install ${names.join(' ')}), then run npm test again.`;
  const asRoot = process.getuid?.() === 0 ? [] : present('sudo') ? ['sudo', '-n'] : null;
  if (!present('apt-get') || asRoot === null)
    throw new Error(`the tests need programs that are not here and that this user cannot install. ${byHand}`);
  console.error(`npm test: installing ${names.join(', ')} …`);
  const apt = (...args) => {
    const [command, ...rest] = [...asRoot, 'apt-get', ...args];
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    return spawnSync(command, rest, { stdio: ['ignore', 'ignore', 'inherit'], env }).status === 0;
  };
  const install = () => apt('install', '-y', '--no-install-recommends', ...names);
  if (!install() && !(apt('update') && install())) throw new Error(`apt-get could not install them. ${byHand}`);
  const still = missing.filter(({ program }) => !present(program));
  if (still.length > 0)
    throw new Error(`${still.map((one) => one.program).join(', ')} cannot be found after installing. ${byHand}`);
}

function present(program) {
  if (program.startsWith('/')) return existsSync(program);
  return spawnSync('sh', ['-c', `command -v ${program}`], { stdio: 'ignore' }).status === 0;
}
