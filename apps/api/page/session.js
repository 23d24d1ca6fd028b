// The token: from the address's fragment (which no server ever sees), kept for this tab only, and taken out of the
// address at once so that it is neither bookmarked nor read over a shoulder.

const kept = (name) => sessionStorage.getItem(`furrowmark.${name}`);

/** Reads the fragment; gives what is known of token and operation. */
export function openSession() {
  const given = new URLSearchParams(location.hash.slice(1));
  for (const name of ['token', 'operation']) {
    const value = given.get(name);
    if (value !== null) sessionStorage.setItem(`furrowmark.${name}`, value);
    given.delete(name);
  }
  const rest = given.toString();
  history.replaceState(null, '', `${location.pathname}${rest === '' ? '' : `#${rest}`}`);
  return { token: kept('token'), operation: kept('operation') };
}

export function remember(name, value) {
  sessionStorage.setItem(`furrowmark.${name}`, value);
}

export function forget() {
  sessionStorage.clear();
}

/** An answer that is not what was asked for, in the service's own words. */
export class Refused extends Error {
  constructor(status, detail) {
    super(detail);
    this.status = status;
  }
}

/** Asks the service. `path` begins after /api/v1; `as` is `json` or `blob`. */
export async function ask(path, as = 'json') {
  let answer;
  try {
    answer = await fetch(`/api/v1${path}`, { headers: { authorization: `Bearer ${kept('token')}` } });
  } catch {
    throw new Refused(0, 'The service does not answer. Is it running? The page keeps what it has shown.');
  }
  if (answer.ok) return answer[as]();
  const problem = await answer.json().catch(() => ({}));
  throw new Refused(answer.status, problem.detail ?? problem.title ?? `The service answered ${answer.status}.`);
}
