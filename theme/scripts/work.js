/* Calculators: work a relation again with each letter that is typed and each choice, so that no result is shown beside
   an input that has changed since. */
(() => {
  'use strict';

  const { say, find, make, fresh, bring, engine, asked } = window.SEATWORK;
  const root = document.documentElement;

  /* Text that is a number alone takes the unit from the list beside it; text with its own unit keeps that. */
  const bare = (text) => /^[\s\d.,+\-−/]+([eE][+\-]?\d+)?\s*$/.test(text);

  /* The places in a law that wait for a number: their text is the name of an input between double brackets. */
  const holes = (law) => [...law.querySelectorAll('mtext')].flatMap((element) => {
    const [, name] = /^\u27e6(\w+)\u27e7$/.exec(element.textContent) || [];
    return name ? [{ element, name }] : [];
  });

  /* Fills a menu of units, of which the page has the one that it shows. */
  const fill = (menu) => {
    const { units, us, si } = window.SEATWORK_UNITS[menu.dataset.kind];
    const shown = menu.value;
    menu.replaceChildren(...units.map((unit) => make('option', {}, unit)));
    menu.value = shown;
    Object.assign(menu.dataset, us ? { us, si } : {});
  };

  const put = (control, text) => {
    if (!control.options || [...control.options].some(({ value }) => value === text)) control.value = text;
  };

  class Work {
    constructor(block) {
      this.block = block;
      this.relation = block.dataset.relation;
      this.output = block.querySelector('output');
      this.resultUnit = block.querySelector('.work-result-unit');
      this.also = block.querySelector('.work-also');
      this.laws = [...block.querySelectorAll('.work-numbers')].map((element) => {
        const byLaw = make('span', { class: 'work-by-law' });
        element.append(byLaw);
        return { element, form: element.dataset.form || null, holes: holes(element), byLaw };
      });
      this.form = block.querySelector('.work-form');
      block.querySelectorAll('[data-kind]').forEach(fill);
      this.rows = [...block.querySelectorAll('.work-input')].map((row) => this.row(row));
      this.open();
      if (this.restore()) this.work();
      else if (this.empty) this.turn();
      document.addEventListener('seatwork:units', () => {
        this.turn();
        if (!this.empty || this.output.textContent) this.work();
      });
    }

    row(row) {
      const field = row.querySelector('.work-value, .work-choice');
      const fault = row.querySelector('.work-fault');
      fault.id = fresh('fault');
      field.setAttribute('aria-describedby', fault.id);
      const name = row.querySelector('.work-name').cloneNode(true);
      name.querySelector('.symbol').remove();
      const label = name.textContent.trim();
      return { name: row.dataset.input, label, field, fault, unit: row.querySelector('.work-unit') };
    }

    /* Opens the fields, and listens: what is typed is worked at once, and judged when it is done. */
    open() {
      this.rows.forEach((row) => {
        const { field, unit } = row;
        field.readOnly = false;
        if (!field.options) field.addEventListener('input', () => this.follow(row));
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

    /* Nothing was typed or given, but for usual values. */
    get empty() { return this.rows.some(({ field }) => field.value.trim() === ''); }

    /* Turns the units of empty fields and of the result to the system of the reader. What was typed keeps its unit. */
    turn() {
      const menus = this.rows.filter(({ field }) => field.value.trim() === '').map(({ unit }) => unit);
      [...menus, this.resultUnit].filter((menu) => menu && menu.dataset.us).forEach((menu) => {
        menu.value = menu.dataset[root.dataset.units];
      });
    }

    /* The address of a page can hold one worked relation: `?w=<relation>` and what was typed, by name. A menu stays as it
       is where the address names what it has not. */
    restore() {
      if (asked.get('w') !== this.relation) return false;
      this.rows.forEach(({ name, field, unit }) => {
        const text = asked.get(name);
        if (text === null) return;
        const known = unit && [...unit.options].find((option) => text.endsWith(` ${option.value}`));
        put(field, known ? text.slice(0, -known.value.length - 1) : text);
        if (known) unit.value = known.value;
      });
      if (this.resultUnit) put(this.resultUnit, asked.get('in'));
      bring(this.block);
      return true;
    }

    /* Puts what was worked into the address, so that it can be kept as a bookmark. */
    keep(given, unit) {
      const query = new URLSearchParams({ w: this.relation, ...given, ...(unit ? { in: unit } : {}) });
      history.replaceState(null, '', `?${query}`);
    }

    /* What is done: worked, with a note at the field that cannot be read, and kept. */
    /* The engine knows a relation of the course's own once it has read what the page carries of it. */
    learn() {
      const { own } = this.block.dataset;
      if (own && !this.learnt) this.learnt = engine().learn(own);
    }

    work() {
      this.run((result, given, unit) => {
        this.rows.forEach((row) => this.mark(row, ''));
        this.show(result);
        this.keep(given, unit);
      });
    }

    /* What is being typed. Until it can be read there is no result, and nobody is corrected halfway through a figure. */
    follow(typed) {
      this.run((result) => {
        this.mark(typed, '');
        if (result.fault && this.blamed(result.fault)) this.none();
        else {
          this.rows.forEach((row) => this.mark(row, ''));
          this.show(result);
        }
      });
    }

    /* Works the relation, and gives what came out with what it was worked from. */
    run(then) {
      const unit = this.resultUnit ? this.resultUnit.value : '';
      try {
        const given = this.given();
        const { units, decimalMark } = root.dataset;
        this.learn();
        then(JSON.parse(engine().work(this.relation, JSON.stringify(given), unit, units, decimalMark)), given, unit);
      } catch (refused) {
        console.error(refused);
        this.none(say('work.unavailable'));
      }
    }

    /* No result, with a word in its place or without. */
    none(...said) {
      this.second(null);
      this.line(null);
      this.output.replaceChildren(...said);
    }

    /* The row of the input that a fault blames. */
    blamed({ input }) { return this.rows.find(({ name }) => name === input); }

    show(result) {
      const { fault } = result;
      if (!fault) {
        this.second(result.also);
        this.line(result);
        this.output.replaceChildren(result.shown);
        return;
      }
      const row = this.blamed(fault);
      if (row) this.mark(row, this.elsewhere(fault).map((piece) => piece.textContent ?? piece).join(''));
      this.none(make('span', { class: 'work-none' }, ...(row ? [say('work.look')] : this.elsewhere(fault))));
    }

    /* The second thing that a relation gives: a quantity, or a choice in words. */
    second(also) {
      if (!this.also) return;
      this.also.hidden = !also;
      const text = also && (also.shown || say(`choices.${also.choice}`));
      this.also.querySelector('output').replaceChildren(text || '');
    }

    /* The law in the form that was worked, with the numbers put in, in the units that belong to its constants. */
    line(result) {
      const given = result ? result.put_in : {};
      this.laws.forEach(({ element, form, holes: places, byLaw }) => {
        const here = result && (!form || form === result.form);
        element.hidden = !here || places.some(({ name }) => !(name in given));
        places.forEach((place) => { place.element.textContent = given[place.name] || ''; });
        byLaw.textContent = result && result.by_law ? ` = ${result.by_law}` : '';
      });
      if (!this.form) return;
      this.form.hidden = !result || !result.form;
      if (result && result.form) this.form.textContent = say(`work.form_${result.mixed ? 'mixed' : result.form}`);
    }

    mark(row, text) {
      row.fault.textContent = text;
      if (text) row.field.setAttribute('aria-invalid', 'true');
      else row.field.removeAttribute('aria-invalid');
    }

    /* The words of a fault. Another relation that holds is named by its title, which leads there, where it is on the page,
       and by what it is for elsewhere. */
    elsewhere(fault) {
      const { instead, ...values } = fault.values || {};
      if (!instead) return [this.words(fault)];
      const title = document.querySelector(`#${instead}-title`);
      if (!title) return [this.words({ ...fault, code: `${fault.code}_elsewhere` })];
      const [before, after] = this.words({ ...fault, values }).split('{instead}');
      return [before, make('a', { href: `#${instead}` }, title.textContent), after];
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
