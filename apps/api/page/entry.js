import { h } from './element.js';
import { forget, remember } from './session.js';

/** Asks for the token, or which operation to look at. */
export function showEntry(main, again, says, operations = []) {
  const token = h('input', { id: 'token', type: 'password', autocomplete: 'off', required: true, spellcheck: 'false' });
  const choice = h(
    'select',
    { id: 'choice' },
    operations.map((one) => h('option', { value: one.operationId }, one.name)),
  );
  const askForToken = operations.length === 0;
  const go = (event) => {
    event.preventDefault();
    if (askForToken) forget();
    remember(askForToken ? 'token' : 'operation', askForToken ? token.value.trim() : choice.value);
    again();
  };
  main.replaceChildren(
    h(
      'form',
      { onsubmit: go },
      h('h1', {}, 'Look at the records'),
      says === '' ? null : h('p', { role: 'alert' }, says),
      askForToken
        ? [h('label', { for: 'token' }, 'Token'), token]
        : [h('label', { for: 'choice' }, 'Operation'), choice],
      h('p', {}, h('button', { type: 'submit' }, 'Open')),
      askForToken ? h('p', { class: 'faint' }, 'It stays in this tab and is forgotten when the tab is closed.') : null,
    ),
  );
  (askForToken ? token : choice).focus();
}
