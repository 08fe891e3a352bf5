/* Practice: puts a live problem in the place of each sample, marks what is typed, and draws fresh numbers. */
(() => {
  'use strict';

  const { get, set, asked, find, say, make, rich, button, fresh, notice, measure, engine, verdict } = window.SEATWORK;
  const root = document.documentElement;

  const recipes = new Map();
  const recipe = (id) => {
    if (!recipes.has(id)) {
      const Recipe = engine().Recipe;
      recipes.set(id, new Recipe(window.SEATWORK_RECIPES[id]));
    }
    return recipes.get(id);
  };

  /* Five digits, every one of them equally likely. */
  const freshNumber = () => {
    const span = 90000;
    const most = Math.floor(2 ** 32 / span) * span;
    const word = new Uint32Array(1);
    do crypto.getRandomValues(word); while (word[0] >= most);
    return String(10000 + (word[0] % span));
  };

  const isNumber = (text) => /^[1-9][0-9]{4}$/.test(text || '');

  /* What is kept of one recipe: its number, and what was typed under each system of units. */
  const kept = (id) => {
    try {
      const found = JSON.parse(get(`practice/${id}`));
      if (found && isNumber(found.no)) return { no: found.no, us: found.us || {}, si: found.si || {} };
    } catch (broken) {
      /* Something else wrote there; fresh numbers replace it. */
    }
    return null;
  };

  const begun = (id) => {
    const old = kept(id);
    const wanted = asked.get('p') === id && isNumber(asked.get('no')) ? asked.get('no') : null;
    if (wanted && (!old || old.no !== wanted)) return { no: wanted, us: {}, si: {} };
    return old || { no: freshNumber(), us: {}, si: {} };
  };

  class Practice {
    constructor(block) {
      this.block = block;
      this.id = block.dataset.recipe;
      this.body = block.querySelector('.practice-body');
      this.label = block.querySelector('.practice-number');
      this.state = begun(this.id);
      /* A problem that is being worked on paper must be there again after a reload. */
      if (!kept(this.id)) this.save();
    }

    get units() { return root.dataset.units; }
    get answers() { return this.state[this.units]; }
    get key() { return [this.state.no, engine().first_attempt(), this.units, root.dataset.decimalMark]; }

    save() { set(`practice/${this.id}`, JSON.stringify(this.state)); }

    /* Draws the problem of the present number and units. Throws where the engine cannot run. */
    draw() {
      const drawn = JSON.parse(recipe(this.id).draw(...this.key));
      this.name();
      if (drawn.fault) {
        const text = say('practice.fault', { code: drawn.fault.code });
        this.body.replaceChildren(make('p', {}, text), this.again());
        return;
      }
      this.parts = drawn.parts.map((part) => this.part(part));
      this.shown = make('div', { class: 'practice-shown' });
      this.statement = rich('div', { class: 'practice-statement', tabindex: '-1' }, drawn.statement);
      this.body.replaceChildren(this.statement, this.form(), this.shown);
    }

    /* The number is a link that brings back exactly this problem. */
    name() {
      const words = { number: this.state.no, units: say(`units.${this.units}`) };
      const query = new URLSearchParams({ p: this.id, no: this.state.no, units: this.units });
      const link = make('a', { href: `?${query}`, 'aria-label': say('practice.number_link', words) },
        say('practice.number', words));
      link.addEventListener('click', (event) => this.share(event, link));
      this.label.replaceChildren(link);
    }

    share(event, link) {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      history.replaceState(null, '', link.href);
      const shown = () => notice(say('practice.link_shown'));
      if (!navigator.clipboard) shown();
      else navigator.clipboard.writeText(link.href).then(() => notice(say('practice.link_copied')), shown);
    }

    form() {
      const check = make('button', { type: 'submit', class: 'action action-main' }, say('practice.check'));
      const fields = this.parts.flatMap((part) => [part.field, part.verdict]);
      const actions = this.actions();
      /* A single number has its Check beside it; several parts share one below. */
      const row = this.parts.length === 1 && this.parts[0].input ? this.parts[0].input.parentNode : null;
      if (row) row.append(check);
      else actions.prepend(check);
      const form = make('form', { class: 'practice-form', novalidate: true }, ...fields, actions);
      form.addEventListener('submit', (event) => {
        event.preventDefault();
        this.check();
      });
      return form;
    }

    actions() {
      const start = 'start' in this.block.dataset ? this.opener('start') : null;
      return make('div', { class: 'actions' }, start, this.opener('working'), this.again());
    }

    again() {
      return button(say('practice.fresh'), { class: 'action' }, () => this.redraw(freshNumber()));
    }

    redraw(no) {
      this.state = { no, us: {}, si: {} };
      this.save();
      /* An address that named the old numbers would bring them back. */
      if (asked.get('p') === this.id) history.replaceState(null, '', location.pathname);
      this.refresh();
      this.read();
    }

    /* What had the focus may be gone with the old problem; the new statement is what there is to read. */
    refresh() {
      const held = this.body.contains(document.activeElement);
      attempt(this, () => this.draw());
      if (held) this.read();
    }

    read() {
      if (this.statement) this.statement.focus();
    }

    part(part) {
      const id = fresh('part');
      const made = part.form === 'number' ? this.number(part, id) : this.choice(part, id);
      const status = make('div', { class: 'part-verdict', role: 'status', id: `${id}-verdict` });
      return { ...part, ...made, verdict: status };
    }

    number(part, id) {
      const input = make('input', {
        id, type: 'text', autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off', autocorrect: 'off',
        'aria-describedby': `${id}-unit ${id}-verdict`,
      });
      input.value = this.answers[part.id] || '';
      input.addEventListener('input', () => this.typed(part.id, input.value));
      const unit = part.unit ? say('practice.in_unit', { unit: part.unit }) : '';
      const field = make('div', { class: 'part' },
        make('label', { class: 'part-label', for: id }, part.label),
        make('div', { class: 'part-field' }, input, make('span', { class: 'part-unit', id: `${id}-unit` }, unit)));
      return { field, input, read: () => input.value };
    }

    choice(part, id) {
      const options = part.options.map((option) => {
        const radio = make('input', { type: 'radio', name: id, value: option.id });
        radio.checked = this.answers[part.id] === option.id;
        radio.addEventListener('change', () => this.typed(part.id, option.id));
        return make('label', { class: 'choice' }, radio, rich('span', {}, option.html));
      });
      const field = make('fieldset', { class: 'part', 'aria-describedby': `${id}-verdict` },
        make('legend', {}, part.label), ...options);
      const read = () => (field.querySelector('input:checked') || { value: '' }).value;
      return { field, input: null, read };
    }

    typed(part, text) {
      this.answers[part] = text;
      this.save();
    }

    /* Marks every part that has an answer; with no answer anywhere, says so at the first. */
    check() {
      const filled = this.parts.filter((part) => part.read().trim() !== '');
      this.parts.forEach((part) => part.verdict.replaceChildren());
      (filled.length > 0 ? filled : this.parts.slice(0, 1)).forEach((part) => this.mark(part));
    }

    mark(part) {
      const answer = part.read();
      const result = JSON.parse(recipe(this.id).mark(...this.key, part.id, answer));
      if (part.input) part.input.setAttribute('aria-invalid', String(result.verdict === 'unreadable'));
      const values = { units: (part.units || []).join(', '), written: answer.trim(), unit: part.unit, ...result.values };
      const shown = result.fault
        ? make('p', {}, say('practice.fault', { code: result.fault.code }))
        : verdict(result, named(result.verdict, part), values, (reading) => this.meant(part, reading));
      part.verdict.replaceChildren(shown);
    }

    /* The learner said which reading is meant. */
    meant(part, reading) {
      part.input.value = reading;
      this.typed(part.id, reading);
      part.input.focus();
      this.mark(part);
    }

    /* A button that opens the first step or the whole working below the form. */
    opener(what) {
      const id = fresh(what);
      const opener = button(say(`practice.${what}`), { class: 'action', 'aria-expanded': 'false', 'aria-controls': id },
        () => {
          const open = opener.getAttribute('aria-expanded') !== 'true';
          opener.setAttribute('aria-expanded', String(open));
          const old = document.getElementById(id);
          if (old) old.remove();
          if (open) {
            this.shown.append(this.reveal(what, id));
            measure();
          }
        });
      return opener;
    }

    reveal(what, id) {
      const solved = JSON.parse(recipe(this.id).solve(...this.key));
      const box = make('div', { class: 'practice-reveal', id }, 
        make('p', { class: 'reveal-title' }, say(what === 'start' ? 'practice.start' : 'practice.worked')));
      if (solved.fault) box.append(make('p', {}, say('practice.fault', { code: solved.fault.code })));
      else if (what === 'start') box.append(rich('div', {}, solved.start || ''));
      else box.append(answers(solved.answers), rich('div', {}, solved.working));
      return box;
    }
  }

  /* The words of a verdict may differ for a choice, and for a number that is asked for without a unit. */
  const named = (code, part) => {
    const kinds = part.form === 'number' ? (part.unit ? [] : ['bare']) : ['option'];
    return kinds.map((kind) => `${code}_${kind}`).find((name) => find(`verdicts.${name}`)) || code;
  };

  const answers = (list) => make('dl', { class: 'practice-answers' }, ...list.map((answer) =>
    make('div', {}, make('dt', {}, answer.label), rich('dd', {}, answer.shown))));

  /* Where the engine cannot run, the sample stays and says so. */
  const attempt = (practice, action) => {
    try {
      action();
    } catch (refused) {
      console.error(refused);
      if (practice.refused) return;
      practice.refused = make('p', { class: 'practice-aims', role: 'status' }, say('practice.unavailable'));
      practice.block.append(practice.refused);
    }
  };

  /* Each block goes live shortly before it is seen, so that a page full of them opens at once. */
  const live = new Map();
  const awaken = (block) => {
    if (live.has(block)) return;
    const practice = new Practice(block);
    live.set(block, practice);
    practice.refresh();
  };

  const blocks = [...document.querySelectorAll('.practice[data-recipe]')];
  const watch = new IntersectionObserver((entries) => entries.forEach((entry) => {
    if (entry.isIntersecting) awaken(entry.target);
  }), { rootMargin: '100% 0px' });
  blocks.forEach((block) => watch.observe(block));
  /* On paper all blocks have problems of this reader, not some of them the sample. */
  addEventListener('beforeprint', () => blocks.forEach(awaken));

  document.addEventListener('seatwork:units', () => live.forEach((practice) => practice.refresh()));
  document.addEventListener('seatwork:cleared', () => live.forEach((practice) => {
    practice.state = { no: freshNumber(), us: {}, si: {} };
    practice.refresh();
  }));

  const wanted = blocks.find((block) => block.dataset.recipe === asked.get('p'));
  if (wanted) {
    awaken(wanted);
    wanted.scrollIntoView({ block: 'start', behavior: 'instant' });
  }
})();
