/* The field of number and read_off: the input, its unit, how to round it; for read_off also the plot and its trace as a table. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich } = SEATWORK;
  SEATWORK.fields = SEATWORK.fields || {};

  /* How to round, or which limit this is: the problem names the words. */
  const rounding = ({ rounding: words, round }) => (words ? say(words, round || {}) : null);

  SEATWORK.rounding = rounding;

  const row = (tag, cells) => make('tr', {}, ...cells.map((cell) => make(tag, tag === 'th' ? { scope: 'col' } : {}, cell)));

  /* The trace of a plot as a table, for those who cannot see the plot. */
  const list = ({ heads, rows }) => make('details', { class: 'part-rows' }, make('summary', {}, say('figure.rows')),
    make('div', { class: 'table-wrap' },
      make('table', {}, make('thead', {}, row('th', heads)), make('tbody', {}, ...rows.map((cells) => row('td', cells))))));

  const plot = (figure) => make('div', { class: 'part-figure' },
    rich('div', { class: 'figure-drawing' }, figure.svg), figure.rows.length > 0 ? list(figure) : null);

  SEATWORK.fields.number = (part, { id, kept, changed }) => {
    const round = rounding(part);
    const described = [`${id}-unit`, round && `${id}-round`, `${id}-verdict`].filter(Boolean).join(' ');
    const input = make('input', {
      id, type: 'text', autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off', autocorrect: 'off',
      'aria-describedby': described,
    });
    input.value = kept;
    input.addEventListener('input', () => changed(input.value));
    const unit = part.unit ? say('practice.in_unit', { unit: part.unit }) : '';
    const line = make('div', { class: 'part-field' }, input, make('span', { class: 'part-unit', id: `${id}-unit` }, unit));
    const element = make('div', { class: 'part' },
      part.figure && !part.figure.again ? plot(part.figure) : null,
      make('label', { class: 'part-label', for: id }, part.label),
      round ? make('p', { class: 'part-note', id: `${id}-round` }, round) : null,
      line);
    return {
      element,
      line,
      begun: () => input.value.trim() !== '',
      answer: () => input.value,
      judged: (verdict) => input.setAttribute('aria-invalid', String(verdict === 'unreadable')),
      take: (text) => {
        input.value = text;
        changed(text);
        input.focus();
      },
    };
  };
})();
