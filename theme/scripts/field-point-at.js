/* The field of point_at: the drawing and, beside it, the list of its parts; a choice in either shows in both. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich } = SEATWORK;
  SEATWORK.fields = SEATWORK.fields || {};

  const option = (name, { id, number, html }, kept) => {
    const input = make('input', { type: 'radio', name, value: id });
    input.checked = kept === id;
    return make('label', { class: 'choice' }, input,
      make('span', { class: 'point-number' }, String(number)), rich('span', {}, html));
  };

  SEATWORK.fields.point_at = (part, { id, kept, changed }) => {
    const picture = rich('div', { class: 'figure-drawing' }, part.figure.svg);
    picture.classList.add('pointing');
    const options = part.options.map((each) => option(id, each, kept));
    const inputs = options.map((label) => label.querySelector('input'));
    const groups = [...picture.querySelectorAll('[data-part]')];
    const read = () => (inputs.find((input) => input.checked) || { value: '' }).value;
    const show = () => groups.forEach((group) => group.classList.toggle('pointed', group.dataset.part === read()));
    const choose = () => {
      show();
      changed(read());
    };
    inputs.forEach((input) => input.addEventListener('change', choose));
    picture.addEventListener('click', (event) => {
      const group = event.target.closest('[data-part]');
      const input = group && inputs.find((each) => each.value === group.dataset.part);
      if (!input) return;
      input.checked = true;
      /* The keyboard continues from the part that was pointed at; the drawing stays in sight. */
      input.focus({ preventScroll: true });
      choose();
    });
    show();
    const source = part.source ? make('p', { class: 'part-note point-source' }, say('point.source', { source: part.source })) : '';
    const element = make('fieldset', { class: 'part', 'aria-describedby': `${id}-note ${id}-verdict` },
      make('legend', {}, part.label),
      make('p', { class: 'part-note part-how', id: `${id}-note` }, say('point.note')),
      make('div', { class: 'point' }, make('div', {}, picture, source), make('div', { class: 'point-list' }, ...options)));
    return { element, begun: () => read() !== '', answer: read };
  };
})();
