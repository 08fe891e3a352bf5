/* The field of match: a menu for each item, and the partners as a lettered list. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich } = SEATWORK;
  SEATWORK.fields = SEATWORK.fields || {};

  const letter = (place) => String.fromCharCode(65 + place);

  const pairs = (kept) => new Map(kept.split(' ').filter(Boolean).map((pair) => pair.split('=')));

  SEATWORK.fields.match = (part, { id, kept, changed }) => {
    const old = pairs(kept);
    const partners = part.partners.map((partner) => rich('li', {}, partner.html));
    const option = (partner, place) => make('option', { value: partner.id },
      say('match.option', { letter: letter(place), text: partners[place].textContent.trim() }));
    const menus = part.items.map((item, place) => {
      const menu = make('select', { id: `${id}-${place}`, 'data-item': item.id },
        make('option', { value: '' }, say('match.choose')), ...part.partners.map(option));
      menu.value = old.get(item.id) || '';
      if (menu.selectedIndex < 0) menu.value = '';
      menu.addEventListener('change', () => changed(read()));
      return menu;
    });
    const read = () => menus.filter((menu) => menu.value !== '')
      .map((menu) => `${menu.dataset.item}=${menu.value}`).join(' ');
    const rows = part.items.map((item, place) => make('li', {},
      rich('label', { for: `${id}-${place}` }, item.html), menus[place],
      make('span', { class: 'match-blank', 'aria-hidden': 'true' })));
    const element = make('fieldset', { class: 'part', 'aria-describedby': `${id}-verdict` },
      make('legend', {}, part.label),
      make('div', { class: 'match' }, make('ul', { class: 'match-items' }, ...rows),
        make('ol', { class: 'match-partners' }, ...partners)));
    return { element, begun: () => read() !== '', answer: read };
  };
})();
