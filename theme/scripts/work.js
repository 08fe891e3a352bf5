/* Calculators: work a relation again whenever a figure, a unit or a choice changes. */
(() => {
  'use strict';

  const { say, find, make, fresh, engine } = window.SEATWORK;
  const root = document.documentElement;

  /* Text that is a number alone takes the unit from the list beside it; text with its own unit keeps that. */
  const bare = (text) => /^[\s\d.,+\-−/]+([eE][+\-]?\d+)?\s*$/.test(text);

  class Work {
    constructor(block) {
      this.block = block;
      this.relation = block.dataset.relation;
      this.output = block.querySelector('output');
      this.resultUnit = block.querySelector('.work-result-unit');
      this.rows = [...block.querySelectorAll('.work-input')].map((row) => this.row(row));
      this.open();
    }

    row(row) {
      const field = row.querySelector('.work-value, .work-choice');
      const fault = row.querySelector('.work-fault');
      fault.id = fresh('fault');
      field.setAttribute('aria-describedby', fault.id);
      const label = row.querySelector('.work-name').firstChild.textContent.trim();
      return { name: row.dataset.input, label, field, fault, unit: row.querySelector('.work-unit') };
    }

    /* Opens the fields, and listens: a figure when it is done, a choice at once. */
    open() {
      this.rows.forEach(({ field, unit }) => {
        field.readOnly = false;
        [field, unit].filter(Boolean).forEach((control) => {
          control.disabled = false;
          control.addEventListener('change', () => this.work());
        });
        field.addEventListener('keydown', (event) => {
          if (event.key === 'Enter') this.work();
        });
      });
      if (this.resultUnit) {
        this.resultUnit.disabled = false;
        this.resultUnit.addEventListener('change', () => this.work());
      }
    }

    /* What is typed, by name. An empty field is left out, so that an input with a usual value takes that. */
    given() {
      const filled = this.rows.filter(({ field }) => field.value.trim() !== '');
      return Object.fromEntries(filled.map(({ name, field, unit }) => {
        const text = field.value.trim();
        return [name, unit && bare(text) ? `${text} ${unit.value}` : text];
      }));
    }

    work() {
      const unit = this.resultUnit ? this.resultUnit.value : '';
      try {
        const given = JSON.stringify(this.given());
        this.show(JSON.parse(engine().work(this.relation, given, unit, root.dataset.units, root.dataset.decimalMark)));
      } catch (refused) {
        console.error(refused);
        this.output.replaceChildren(say('work.unavailable'));
      }
    }

    show(result) {
      this.rows.forEach((row) => this.mark(row, ''));
      if (!result.fault) {
        this.output.replaceChildren(result.shown);
        return;
      }
      const row = this.rows.find(({ name }) => name === result.fault.input);
      const text = this.words(result.fault);
      if (row) this.mark(row, text);
      const note = make('span', { class: 'work-none' }, row ? say('work.look') : text);
      this.output.replaceChildren(note);
    }

    mark(row, text) {
      row.fault.textContent = text;
      if (text) row.field.setAttribute('aria-invalid', 'true');
      else row.field.removeAttribute('aria-invalid');
    }

    /* The words of a fault; names of inputs among its values become the labels that stand on the page. */
    words({ code, values }) {
      const label = (value) => (this.rows.find(({ name }) => name === value) || { label: value }).label;
      const filled = Object.fromEntries(Object.entries(values || {}).map(([name, value]) => [name, label(value)]));
      return say(find(`faults.${code}`) ? `faults.${code}` : 'faults.unknown', { ...filled, code });
    }
  }

  document.querySelectorAll('.work[data-relation]').forEach((block) => new Work(block));
})();
