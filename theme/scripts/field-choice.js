/* The fields of one_of, several_of and true_or_false: options to choose from. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich } = SEATWORK;
  SEATWORK.fields = SEATWORK.fields || {};

  const choice = (type, name, { id, html }, checked, changed) => {
    const input = make('input', { type, name, value: id });
    input.checked = checked;
    input.addEventListener('change', changed);
    return make('label', { class: 'choice' }, input, rich('span', {}, html));
  };

  const chosen = (element, name) =>
    [...element.querySelectorAll(`input[name="${name}"]:checked`)].map((input) => input.value).join(' ');

  const group = (part, id, note, ...inside) => make('fieldset',
    { class: 'part', 'aria-describedby': note ? `${id}-note ${id}-verdict` : `${id}-verdict` },
    make('legend', {}, part.label),
    note ? make('p', { class: 'part-note', id: `${id}-note` }, note) : null,
    ...inside);

  SEATWORK.fields.one_of = (part, { id, kept, changed }) => {
    const read = () => chosen(element, id);
    const options = part.options.map((option) => choice('radio', id, option, kept === option.id, () => changed(read())));
    const element = group(part, id, null, ...options);
    return { element, begun: () => read() !== '', answer: read };
  };

  SEATWORK.fields.several_of = (part, { id, kept, changed }) => {
    const marked = kept.split(' ');
    const read = () => chosen(element, id);
    const options = part.options.map((option) =>
      choice('checkbox', id, option, marked.includes(option.id), () => changed(read())));
    const element = group(part, id, say('several.note'), ...options);
    return { element, begun: () => read() !== '', answer: read };
  };

  /* Kept as the two choices with a space between them; either may still be missing. */
  SEATWORK.fields.true_or_false = (part, { id, kept, changed }) => {
    const [truth, reason] = kept.split(' ');
    const [truthName, reasonName] = [`${id}-truth`, `${id}-reason`];
    const read = () => `${chosen(element, truthName)} ${chosen(element, reasonName)}`;
    const typed = () => changed(read());
    const claims = [['true', say('claim.holds')], ['false', say('claim.fails')]].map(([value, word]) =>
      choice('radio', truthName, { id: value, html: word }, truth === value, typed));
    const reasons = part.reasons.map((each) => choice('radio', reasonName, each, reason === each.id, typed));
    const element = group(part, id, null,
      rich('div', { class: 'claim' }, part.statement),
      make('div', { class: 'claim-truth' }, ...claims),
      make('fieldset', { class: 'claim-reasons' }, make('legend', {}, say('claim.reason')), ...reasons));
    const answer = () => (/^\w+ \w+$/.test(read()) ? read() : '');
    return { element, begun: () => read().trim() !== '', answer };
  };
})();
