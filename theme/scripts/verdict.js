/* Shows a verdict: by a shape, a word and a colour, and with the reason. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { find, say, make, draw, rich, button } = SEATWORK;

  /* How each verdict looks; one that is not here looks like a plain wrong answer. */
  const MANNER = {
    right: 'good', wrong_unit: 'part', unsafe: 'alarm', ambiguous: 'ask', unreadable: 'ask', blank: 'ask',
  };

  const SHAPE = {
    good: () => [draw('circle', { cx: 12, cy: 12, r: 10 }), draw('path', { d: 'M7 12.5l3.5 3.5 6.5-8' })],
    part: () => [draw('circle', { cx: 12, cy: 12, r: 10 }), draw('path', { class: 'solid', d: 'M12 2a10 10 0 0 0 0 20z' })],
    miss: () => [draw('path', { d: 'M2.5 2.5h19v19h-19zM8 8l8 8M16 8l-8 8' })],
    alarm: () => [draw('path', { d: 'M12 2L23 21H1zM12 8.5v6M12 16.5v2' })],
    ask: () => [draw('path', { d: 'M12 1l11 11-11 11L1 12zM9 9.5a3 3 0 1 1 4.2 2.8c-1 .5-1.2 1-1.2 2M12 16v1.5' })],
  };

  const shape = (manner) =>
    draw('svg', { class: 'verdict-shape', viewBox: '0 0 24 24', 'aria-hidden': 'true' }, ...SHAPE[manner]());

  /* The reason: what the author wrote for it, else our words for the slip, the strange unit or the verdict. */
  const reason = (result, code, values) => {
    if (result.html) return rich('div', {}, result.html);
    const { slip, typed_unit: typed } = result.values;
    const path = slip && find(`slips.${slip}`) ? `slips.${slip}`
      : result.verdict === 'unreadable' && typed ? 'verdicts.unknown_unit.text' : `verdicts.${code}.text`;
    const text = say(path, values);
    return text ? make('p', {}, text) : null;
  };

  const notes = (result, values) => {
    const said = result.notes.filter((note) => find(`notes.${note}`));
    const lines = said.map((note) => say(`notes.${note}`, values));
    if (result.credit > 0 && result.credit < 100) lines.push(say('notes.credit', { credit: result.credit }));
    return lines.map((line) => make('p', { class: 'verdict-note' }, line));
  };

  /* The readings of an ambiguous number, each a button that answers the question. */
  const readings = (result, chosen) => {
    if (result.readings.length === 0) return null;
    const buttons = result.readings.map((reading) => button(reading, { class: 'action' }, () => chosen(reading)));
    return make('div', { class: 'actions' }, ...buttons);
  };

  /* The verdict as an element; `code` is the verdict under the name that its words have here. */
  SEATWORK.verdict = (result, code, values, chosen) => {
    const manner = MANNER[result.verdict] || 'miss';
    return make('div', { class: `verdict verdict-${manner}` },
      shape(manner),
      make('div', { class: 'verdict-says' },
        make('p', { class: 'verdict-word' }, say(`verdicts.${code}.word`)),
        reason(result, code, values),
        ...notes(result, values),
        readings(result, chosen)));
  };
})();
