/* Terms: the definition in reach of each term in the text, and the finder on the sheet of terms. */
(() => {
  'use strict';

  const { say, make, fresh } = window.SEATWORK;
  const WAIT = 200;

  /* Hidden definitions that the links point to, so that they are read out with the link: one for each term. */
  const store = make('div', { hidden: true });
  const described = new Map();
  const describe = (link) => {
    const text = link.dataset.definition;
    if (!described.has(text)) {
      const id = fresh('definition');
      store.append(make('p', { id }, text));
      described.set(text, id);
    }
    link.setAttribute('aria-describedby', described.get(text));
  };

  /* One card for the whole page: comes on hover, focus or tap; stays while the pointer is on it; Escape closes it. */
  const name = make('p', { class: 'definition-name' });
  const text = make('p');
  const more = make('a', { tabindex: '-1' }, say('terms.open'));
  const card = make('div', { class: 'definition-card', hidden: true }, name, text, more);
  let holder = null;
  let timer = 0;

  const place = () => {
    const link = holder.getClientRects()[0];
    const box = card.getBoundingClientRect();
    const bar = document.querySelector('.turn');
    const floor = bar && getComputedStyle(bar).position === 'sticky' ? bar.getBoundingClientRect().top : innerHeight;
    const below = link.bottom + 4;
    const above = link.top - box.height - 4;
    const top = below + box.height > floor && above > 0 ? above : below;
    const left = Math.max(8, Math.min(link.left, document.documentElement.clientWidth - box.width - 8));
    const origin = card.offsetParent.getBoundingClientRect();
    card.style.top = `${top - origin.top - card.offsetParent.clientTop}px`;
    card.style.left = `${left - origin.left - card.offsetParent.clientLeft}px`;
  };

  const show = (link) => {
    clearTimeout(timer);
    holder = link;
    name.textContent = link.textContent;
    text.textContent = link.dataset.definition;
    more.href = link.href;
    card.hidden = false;
    place();
  };

  const hide = () => {
    clearTimeout(timer);
    card.hidden = true;
    holder = null;
  };

  const later = (action) => {
    clearTimeout(timer);
    timer = setTimeout(action, WAIT);
  };

  const term = (target) => (target instanceof Element ? target.closest('a.term[data-definition]') : null);
  const leave = () => {
    if (term(document.activeElement) !== holder) later(hide);
  };

  document.addEventListener('pointerover', (event) => {
    if (event.pointerType === 'touch') return;
    const link = term(event.target);
    if (link && link !== holder) later(() => show(link));
    else if (link || card.contains(event.target)) clearTimeout(timer);
    else if (holder) leave();
    else clearTimeout(timer);
  });
  document.addEventListener('focusin', (event) => {
    const link = term(event.target);
    if (link && link.matches(':focus-visible')) show(link);
    else if (holder && !card.contains(event.target)) hide();
  });
  document.addEventListener('focusout', (event) => {
    if (term(event.target) === holder && !card.contains(event.relatedTarget)) later(hide);
  });
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && holder) hide();
  });

  /* A finger has no hover: the first tap shows the definition, a second one follows the link. */
  let finger = false;
  document.addEventListener('pointerdown', (event) => {
    finger = event.pointerType === 'touch';
  });
  document.addEventListener('click', (event) => {
    const link = term(event.target);
    if (link && finger && event.detail > 0 && holder !== link) {
      event.preventDefault();
      show(link);
    } else if (!link && !card.contains(event.target)) hide();
  });
  addEventListener('resize', hide);

  const links = document.querySelectorAll('a.term[data-definition]');
  links.forEach(describe);
  if (links.length > 0) document.getElementById('main').append(store, card);

  /* The finder leaves only the terms that have the letters in their name or in another name of theirs. */
  const finder = document.querySelector('[data-find-term]');
  if (!finder) return;
  const result = document.querySelector('[data-find-result]');
  const letters = document.querySelectorAll('.letter');
  const entries = [...document.querySelectorAll('.term-entry')].map((entry) => {
    const also = entry.querySelector('[data-also]');
    const names = `${entry.querySelector('h3').textContent} ${also ? also.textContent : ''}`;
    return { entry, names: names.toLowerCase() };
  });
  /* What is found appears below the field. Where it would begin too low to be seen over a keyboard on the screen, the
     field goes to the top. */
  const near = () => {
    const field = finder.closest('label');
    const room = (window.visualViewport || { height: innerHeight }).height;
    if (field.getBoundingClientRect().bottom > room / 3) field.scrollIntoView({ block: 'start', behavior: 'instant' });
  };
  const narrow = () => {
    const wanted = finder.value.trim().toLowerCase();
    let count = 0;
    entries.forEach(({ entry, names }) => {
      entry.hidden = !names.includes(wanted);
      if (!entry.hidden) count += 1;
    });
    letters.forEach((letter) => { letter.hidden = wanted !== ''; });
    const found = say(count > 0 ? 'terms.found' : 'terms.none', { count, all: entries.length });
    result.textContent = wanted === '' ? '' : found;
  };
  finder.addEventListener('input', () => {
    narrow();
    near();
  });
  addEventListener('hashchange', () => {
    finder.value = '';
    narrow();
  });
})();
