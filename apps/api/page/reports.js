import { h } from './element.js';
import { ask } from './session.js';

/**
 * A report as a file. The token travels in the request's header, which a plain link cannot do; so the button fetches
 * the file and hands it over.
 */
export function reportButton(path, name, label) {
  const says = h('span', { role: 'status', class: 'faint' });
  const fetchIt = async () => {
    says.textContent = ' preparing …';
    try {
      const address = URL.createObjectURL(await ask(path, 'blob'));
      h('a', { href: address, download: name }).click();
      setTimeout(() => URL.revokeObjectURL(address), 60_000);
      says.textContent = ' saved';
    } catch (error) {
      says.textContent = ` ${error.message}`;
    }
  };
  return h('span', {}, h('button', { type: 'button', onclick: fetchIt }, label), says);
}
