/** Makes an element. Children that are text go in as text, so nothing a record says is ever read as markup. */
export function h(name, attributes = {}, ...children) {
  return fill(document.createElement(name), attributes, children);
}

/** The same for drawings. */
export function s(name, attributes = {}, ...children) {
  return fill(document.createElementNS('http://www.w3.org/2000/svg', name), attributes, children);
}

function fill(element, attributes, children) {
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else if (value !== undefined && value !== null && value !== false) element.setAttribute(key, String(value));
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return element;
}
