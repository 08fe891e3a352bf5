/* Small tools that the other scripts share: words, elements, and one notice for the whole page. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const words = window.SEATWORK_WORDS || {};
  const drawing = 'http://www.w3.org/2000/svg';

  /* The word under a path such as `practice.check`; undefined where there is none. */
  const find = (path) => path.split('.').reduce((branch, key) => (branch ? branch[key] : undefined), words);

  const fill = (text, values = {}) =>
    text.replace(/\{(\w+)\}/g, (hole, name) => (name in values ? String(values[name]) : hole));

  /* A word with its holes filled. A missing word shows its path, so that it is noticed. */
  const say = (path, values) => {
    const text = find(path);
    return typeof text === 'string' ? fill(text, values) : path;
  };

  const add = (element, attributes, children) => {
    Object.entries(attributes).forEach(([name, value]) => {
      if (value === true) element.setAttribute(name, '');
      else if (value !== null && value !== undefined && value !== false) element.setAttribute(name, value);
    });
    element.append(...children.filter((child) => child !== null && child !== undefined));
    return element;
  };

  const make = (tag, attributes = {}, ...children) => add(document.createElement(tag), attributes, children);
  const draw = (tag, attributes = {}, ...children) => add(document.createElementNS(drawing, tag), attributes, children);

  /* Markup that the engine wrote from a compiled recipe. What a learner typed never comes through here. */
  const rich = (tag, attributes, html) => {
    const element = make(tag, attributes);
    element.innerHTML = html;
    return element;
  };

  const button = (label, attributes, pressed) => {
    const element = make('button', { type: 'button', ...attributes }, label);
    element.addEventListener('click', pressed);
    return element;
  };

  /* An id for the page. No heading and no term has one with both a line under and a hyphen. */
  let count = 0;
  const fresh = (stem) => {
    count += 1;
    return `live_${stem}-${count}`;
  };

  /* Brings a block to the top of the screen, one frame late: it is as high then as it has become, so nothing moves in sight. */
  const bring = (block) => requestAnimationFrame(() => {
    setTimeout(() => block.scrollIntoView({ block: 'start', behavior: 'instant' }));
  });

  /* One line at the top of the page that says what was done, and goes after a while. */
  let line = null;
  let timer = 0;
  const notice = (text) => {
    if (!line) {
      line = make('p', { class: 'notice', role: 'status' });
      document.body.append(line);
    }
    clearTimeout(timer);
    line.textContent = text;
    timer = setTimeout(() => { line.textContent = ''; }, 6000);
  };

  Object.assign(SEATWORK, { find, say, make, draw, rich, button, fresh, bring, notice });
})();
