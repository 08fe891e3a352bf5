/* Where to start, and the working, which comes line by line so that the learner can go on alone from any of them. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich, button, measure } = SEATWORK;

  const answers = (list) => make('dl', { class: 'practice-answers' }, ...list.map((answer) =>
    make('div', {}, make('dt', {}, answer.label), rich('dd', answer.cells ? { class: 'table-wrap' } : {}, answer.shown))));

  /* The lines: the paragraphs of the text, the steps between them each for itself, and what came out. */
  const linesOf = (text, result) => {
    const pieces = [...text.children].flatMap((piece) => (piece.matches('.steps') ? [...piece.children] : [piece]));
    return [...pieces, result];
  };

  const lineByLine = (solved) => {
    const text = rich('div', {}, solved.working);
    const result = answers(solved.answers);
    const lines = linesOf(text, result);
    let count = 0;
    const show = (until) => {
      const before = count;
      count = Math.min(until, lines.length);
      lines.forEach((line, place) => { line.hidden = place >= count; });
      [...text.querySelectorAll('.steps')].forEach((steps) => {
        steps.hidden = [...steps.children].every((step) => step.hidden);
      });
      if (count === lines.length) over(lines[before]);
      measure();
    };
    /* The buttons go when there is nothing left to show; what had the focus passes it to what they showed. */
    const over = (line) => {
      const held = buttons.contains(document.activeElement);
      buttons.remove();
      if (!held) return;
      line.setAttribute('tabindex', '-1');
      line.focus();
    };
    const buttons = make('div', { class: 'actions' },
      button(say('working.next'), { class: 'action' }, () => show(count + 1)),
      button(say('working.all'), { class: 'action' }, () => show(lines.length)));
    const box = make('div', {}, make('div', { 'aria-live': 'polite' }, text, result), buttons);
    show(1);
    return box;
  };

  /* The box below a problem with its first step (`start`) or with its working. */
  SEATWORK.reveal = (what, id, solved) => {
    const box = make('div', { class: 'practice-reveal', id },
      make('p', { class: 'reveal-title' }, what === 'start' ? say('practice.start') : say('practice.worked')));
    if (solved.fault) box.append(make('p', {}, say('practice.fault', { code: solved.fault.code })));
    else if (what === 'start') box.append(rich('div', {}, solved.start || ''));
    else box.append(lineByLine(solved));
    return box;
  };
})();
