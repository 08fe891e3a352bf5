/* Shows a verdict: by a shape, a word and a colour, and with the reason. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { find, say, make, draw, rich, button } = SEATWORK;

  /* How each verdict looks; one that is not here looks like a plain wrong answer. */
  const MANNER = {
    right: 'good', wrong_unit: 'part', rounding: 'part', carried: 'part', partly: 'part', other_reason: 'part',
    unsafe: 'alarm', ambiguous: 'ask', unreadable: 'ask', blank: 'ask',
  };

  /* Verdicts whose words differ with the form of the part. */
  const BY_FORM = {
    one_of: { blank: 'verdicts.blank_option', unsafe: 'verdicts.unsafe_choice' },
    several_of: { blank: 'verdicts.blank_several', partly: 'verdicts.partly_several', unsafe: 'verdicts.unsafe_choice' },
    in_order: { blank: 'verdicts.blank_order', partly: 'verdicts.partly_order', unsafe: 'verdicts.unsafe_choice' },
    match: { blank: 'verdicts.blank_match', partly: 'verdicts.partly_match', unsafe: 'verdicts.unsafe_choice' },
    point_at: { blank: 'verdicts.blank_point', unsafe: 'verdicts.unsafe_choice' },
    true_or_false: { blank: 'verdicts.blank_claim', unsafe: 'verdicts.unsafe_choice' },
  };

  /* Where the words of a verdict are; those of a number that is asked for without a unit may differ too. */
  const named = (code, part) => {
    const path = (BY_FORM[part.form] || {})[code] || `verdicts.${code}`;
    const bare = part.form === 'number' && !part.unit ? `${path}_bare` : path;
    return find(bare) ? bare : path;
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

  /* The reason: what the author wrote for it, or else our words for the slip, the strange unit or the verdict. A slip that
     chance could explain as well is asked about. */
  const reason = (result, path, values) => {
    if (result.html) return rich('div', {}, result.html);
    const { slip, typed_unit: typed } = result.values;
    const slips = result.notes.includes('asked') ? 'slips_asked' : 'slips';
    const better = slip && find(`${slips}.${slip}`) ? `${slips}.${slip}`
      : result.verdict === 'unreadable' && typed
        ? (values.unit ? 'verdicts.unknown_unit.text' : 'verdicts.unknown_unit_bare.text') : `${path}.text`;
    const text = say(better, values);
    return text ? make('p', {}, text) : null;
  };

  /* What the author says of each choice that was made or left out. */
  const told = (list) => (list.length > 0
    ? make('ul', { class: 'verdict-told' }, ...list.map((html) => rich('li', {}, html))) : null);

  /* What can hurt somebody is said before the reason, all other notes after it. */
  const FIRST = 'unsafe_side';
  const line = (text) => make('p', { class: 'verdict-note' }, text);
  const warning = ({ notes: all }) => (all.includes(FIRST) ? make('p', { class: 'verdict-warning' }, say(`notes.${FIRST}`)) : null);

  const notes = ({ notes: all, credit }, values) => {
    const said = all.filter((name) => name !== FIRST && find(`notes.${name}`)).map((name) => say(`notes.${name}`, values));
    return (credit > 0 && credit < 100 ? [...said, credit === 50 ? say('notes.half') : say('notes.credit', { credit })] : said).map(line);
  };

  /* The readings of an ambiguous number, each a button that answers the question. */
  const readings = (list, chosen) => {
    if (list.length === 0) return null;
    const buttons = list.map((reading) => button(reading, { class: 'action' }, () => chosen(reading)));
    return make('div', { class: 'actions' }, ...buttons);
  };

  /* The verdict on what was `written` for a part, as an element; `chosen` takes the reading that the learner meant. */
  SEATWORK.verdict = (result, part, written, chosen) => {
    const manner = MANNER[result.verdict] || 'miss';
    const path = named(result.verdict, part);
    const values = { units: (part.units || []).join(', '), written, unit: part.unit, ...result.values };
    return make('div', { class: `verdict verdict-${manner}` },
      shape(manner),
      make('div', { class: 'verdict-says' },
        make('p', { class: 'verdict-word' }, say(`${path}.word`)),
        warning(result),
        reason(result, path, values),
        told(result.told || []),
        ...notes(result, values),
        readings(result.readings, chosen)));
  };
})();
