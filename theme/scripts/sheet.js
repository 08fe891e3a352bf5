/* The switches of a sheet: units, look, clearing one's work; running heads for print; wide tables by keyboard. */
(() => {
  'use strict';

  const { prefix, set, clear, begin, say, make, button, fresh, notice } = window.SEATWORK;
  const root = document.documentElement;
  const darkness = matchMedia('(prefers-color-scheme: dark)');

  const look = () => root.dataset.look || (darkness.matches ? 'blueprint' : 'paper');

  const show = () => {
    document.querySelectorAll('[data-set-units]').forEach((choice) => {
      choice.setAttribute('aria-pressed', String(choice.dataset.setUnits === root.dataset.units));
    });
    document.querySelectorAll('[data-set-look]').forEach((choice) => {
      choice.setAttribute('aria-pressed', String(choice.dataset.setLook === look()));
    });
  };

  const tell = (name) => document.dispatchEvent(new CustomEvent(name));

  const choose = (key, value) => {
    root.dataset[key] = value;
    set(key, value);
    show();
  };

  document.querySelectorAll('[data-set-units]').forEach((choice) => {
    choice.addEventListener('click', () => {
      choose('units', choice.dataset.setUnits);
      tell('seatwork:units');
    });
  });
  document.querySelectorAll('[data-set-look]').forEach((choice) => {
    choice.addEventListener('click', () => choose('look', choice.dataset.setLook));
  });
  darkness.addEventListener('change', show);

  /* Another page of the course changed a choice. */
  addEventListener('storage', (event) => {
    if (event.key !== `${prefix}units` && event.key !== `${prefix}look`) return;
    begin();
    show();
    tell('seatwork:units');
  });

  const cleared = () => {
    clear();
    begin();
    show();
    tell('seatwork:cleared');
    notice(say('clear.done'));
  };

  /* Asks before something is deleted; `then` runs where the answer is yes. */
  const ask = ({ title, text, keep, confirm }, then) => {
    const id = fresh('question');
    const box = make('dialog', { class: 'question', 'aria-labelledby': id },
      make('h2', { id }, title),
      make('p', {}, text),
      make('div', { class: 'question-choices' },
        button(keep, { class: 'action' }, () => box.close()),
        button(confirm, { class: 'action action-main' }, () => {
          box.close();
          then();
        })));
    box.addEventListener('close', () => box.remove());
    document.body.append(box);
    box.showModal();
  };

  const question = () => ask({
    title: say('clear.title'), text: say('clear.text'), keep: say('clear.keep'), confirm: say('clear.confirm'),
  }, cleared);

  document.querySelectorAll('[data-clear-work]').forEach((element) => element.addEventListener('click', question));

  /* A table or formula that scrolls sideways must be reachable by keyboard; one that fits needs no tab stop. A formula in a
     line has no box around it: it is a stop itself, and is read as the formula that it is. */
  const measure = () => {
    document.querySelectorAll('math:not([display="block"])').forEach((formula) => {
      if (formula.scrollWidth > formula.clientWidth + 1) formula.setAttribute('tabindex', '0');
      else formula.removeAttribute('tabindex');
    });
    document.querySelectorAll('.table-wrap, .math-wrap, .figure-drawing, .steps, pre').forEach((box) => {
      const wide = box.scrollWidth > box.clientWidth + 1;
      if (!wide) {
        ['tabindex', 'role', 'aria-label'].forEach((name) => box.removeAttribute(name));
        return;
      }
      box.setAttribute('tabindex', '0');
      box.setAttribute('role', 'group');
      const kind = box.matches('.math-wrap, .steps') ? 'formula' : box.matches('pre') ? 'code' : 'table';
      box.setAttribute('aria-label', say(`wide.${kind}`));
    });
  };

  /* Margin boxes take their text from the sheet itself; style sheets alone cannot carry it there. */
  const running = (name, cell) => {
    const element = document.querySelector(cell);
    if (element) root.style.setProperty(name, JSON.stringify(element.textContent.trim()));
  };

  show();
  measure();
  addEventListener('resize', measure);
  running('--running-course', '.cell-course dd');
  running('--running-owner', '.cell-owner dd');
  running('--running-sheet', '.cell-title dd');
  Object.assign(window.SEATWORK, { measure, ask });
})();
