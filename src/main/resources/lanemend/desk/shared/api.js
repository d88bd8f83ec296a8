// Asks the desk. What cannot be done comes as a Refused with the desk's own sentence.

export class Refused extends Error {
  constructor(problem) {
    super(problem.detail || problem.title || 'The desk did not answer.');
    this.problem = problem;
  }
}

let written = null;

async function ask(path, options = {}) {
  let answer;
  try {
    answer = await fetch(path, options);
  } catch (e) {
    if (e.name === 'AbortError') {
      throw e;
    }
    throw new Refused({ status: 0, detail: 'The desk does not answer. Is it still running?' });
  }
  const type = answer.headers.get('Content-Type') || '';
  const body = type.includes('json') ? await answer.json() : await answer.text();
  if (answer.status === 401 && path !== '/api/session') {
    document.dispatchEvent(new CustomEvent('signed-out'));
  }
  if (!answer.ok) {
    throw new Refused(typeof body === 'object' ? body : { status: answer.status, detail: body });
  }
  return body;
}

/** Query parameters; null and empty ones are left out. */
export function query(parameters) {
  const q = new URLSearchParams();
  for (const [name, value] of Object.entries(parameters)) {
    if (value !== null && value !== undefined && value !== '') {
      q.set(name, value);
    }
  }
  const text = q.toString();
  return text ? '?' + text : '';
}

export const get = (path, parameters = {}, options = {}) => ask(path + query(parameters), options);

function send(method, path, body, version) {
  const headers = { 'Content-Type': 'application/json' };
  if (version !== undefined) {
    headers['If-Match'] = `"${version}"`;
  }
  return ask(path, { method, headers, body: JSON.stringify(body ?? {}) });
}

export const post = (path, body, version) => send('POST', path, body, version);
export const put = (path, body, version) => send('PUT', path, body, version);
/** A file as it is; only pictures are taken. */
export const sendFile = (path, file) => ask(path, { method: 'POST', headers: { 'Content-Type': file.type }, body: file });

export const remove = (path, version) => send('DELETE', path, {}, version);

/** The county in short; asked for once unless {@code again}. */
export function county(again = false) {
  if (!written || again) {
    written = get('/api/county');
  }
  return written;
}
