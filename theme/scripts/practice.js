/* Practice: puts a live problem in the place of each sample on the page. */
(() => {
  'use strict';

  const { asked, say, notice, kept, bring, Problem } = window.SEATWORK;

  /* Each block goes live shortly before it is seen, so that a page full of them opens at once. */
  const live = new Map();
  const awaken = (block) => {
    if (live.has(block)) return;
    const problem = new Problem(block, kept.ofRecipe(block.dataset.recipe));
    live.set(block, problem);
    problem.refresh();
  };

  const blocks = [...document.querySelectorAll('.practice[data-recipe]')];
  const watch = new IntersectionObserver((entries) => entries.forEach((entry) => {
    if (entry.isIntersecting) awaken(entry.target);
  }), { rootMargin: '100% 0px' });
  blocks.forEach((block) => watch.observe(block));
  /* On paper every block has a problem of this reader; none shows the sample. */
  addEventListener('beforeprint', () => blocks.forEach(awaken));

  document.addEventListener('seatwork:units', () => live.forEach((problem) => problem.refresh()));
  document.addEventListener('seatwork:cleared', () => live.forEach((problem) => {
    problem.keep.state = kept.begin(kept.freshNumber());
    problem.refresh();
  }));

  /* On a sheet of its own, the problem of a number that somebody has set. */
  const form = document.querySelector('[data-by-number]');
  if (form) {
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      const no = form.querySelector('input').value.trim();
      if (!kept.isNumber(no)) {
        notice(say('kept.no_such_number'));
        return;
      }
      const query = new URLSearchParams({ p: blocks[0].dataset.recipe, no, units: document.documentElement.dataset.units });
      location.assign(`?${query}`);
    });
  }

  /* The place that the address leads to stays in sight only when the problems before it have their height. */
  const bringTarget = () => {
    const target = document.querySelector(':target');
    const before = target ? blocks.filter((block) => block.compareDocumentPosition(target) & Node.DOCUMENT_POSITION_FOLLOWING) : [];
    if (before.every((block) => live.has(block))) return;
    before.forEach(awaken);
    bring(target);
  };
  addEventListener('hashchange', bringTarget);
  addEventListener('load', bringTarget);

  /* The problem that the address names, and the next one, which may come into sight with it. */
  const wanted = blocks.findIndex((block) => block.dataset.recipe === asked.get('p'));
  if (wanted >= 0) {
    blocks.slice(wanted, wanted + 2).forEach(awaken);
    bring(blocks[wanted]);
  }
})();
