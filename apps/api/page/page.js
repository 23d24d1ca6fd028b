import { showBatch } from './batch.js';
import { h } from './element.js';
import { showEntry } from './entry.js';
import { batchList } from './list.js';
import { ask, openSession, Refused } from './session.js';
import { times } from './words.js';

const main = document.getElementById('main');
const say = (text) => document.getElementById('state').replaceChildren(text);

/** What the address asks for: `#batch=…`. */
const wanted = () => new URLSearchParams(location.hash.slice(1)).get('batch');

async function start() {
  const { token, operation } = openSession();
  if (token === null) return showEntry(main, start, 'Paste the token that you were given.');
  say('reading …');
  try {
    const { operations } = await ask('/operations');
    const chosen =
      operations.find((one) => one.operationId === operation) ?? (operations.length === 1 ? operations[0] : null);
    if (chosen === null || chosen === undefined) {
      say('');
      return showEntry(main, start, operations.length === 0 ? 'This token opens no operation.' : '', operations);
    }
    await showOperation(chosen);
  } catch (error) {
    say('');
    if (error instanceof Refused && error.status === 401) showEntry(main, start, error.message);
    else main.replaceChildren(trouble(error));
  }
}

async function showOperation(operation) {
  const time = times(operation.timeZone);
  const path = `/operations/${operation.operationId}`;
  document.getElementById('operation').textContent = operation.name;
  document.title = `${operation.name} · Furrowmark`;
  const columns = h('div', { class: 'columns' });
  const list = await batchList(path, time);
  const view = h('section', { 'aria-label': 'Batch', tabindex: '-1' });
  columns.append(list.element, view);
  main.replaceChildren(columns);
  say(`${list.count} batches, log at ${list.asOfSeq}`);

  const show = async (focus) => {
    const batchId = wanted();
    list.choose(batchId);
    columns.classList.toggle('opened', batchId !== null);
    if (batchId === null) return view.replaceChildren(h('p', { class: 'faint' }, 'Choose a batch.'));
    view.setAttribute('aria-busy', 'true');
    try {
      await showBatch(view, path, batchId, time, list.vessels);
    } catch (error) {
      view.replaceChildren(trouble(error));
    }
    view.removeAttribute('aria-busy');
    if (focus) view.focus();
  };
  window.onhashchange = () => show(true);
  await show(false);
}

const trouble = (error) =>
  h(
    'p',
    { class: 'error', role: 'alert' },
    error instanceof Refused ? error.message : `The page could not show this: ${error.message}`,
  );

await start();
