/* A live problem in its block: drawn from its number, answered, marked, worked out, drawn with fresh numbers. */
(() => {
  'use strict';

  const SEATWORK = window.SEATWORK;
  const { say, make, rich, button, fresh, notice, measure, engine, recipe, reveal, verdict, fields, record, kept } = SEATWORK;
  const root = document.documentElement;

  /* Verdicts that ask the learner for something and settle nothing. */
  const OPEN = ['blank', 'ambiguous', 'unreadable'];

  /* What all parts count together; nothing if an unsafe one fails the whole. */
  const sum = ({ credit, failed }) => (failed ? say('practice.failed') : say('practice.total', { credit }));

  /* What is marked by itself: a part, or each cell of a part that has several fields. */
  const pieces = (parts) => parts.flatMap((part) => part.cells || [part]);

  class Problem {
    /* `keep` has the `state` of the problem, a function to `save` it, one to `renew` the page when fresh numbers come, and
       the `page` on which a link to the problem opens. */
    constructor(block, keep) {
      this.block = block;
      this.id = block.dataset.recipe;
      this.level = Number(block.dataset.level);
      this.body = block.querySelector('.practice-body');
      this.label = block.querySelector('.practice-number');
      this.keep = keep;
    }

    get state() { return this.keep.state; }
    get units() { return root.dataset.units; }
    get answers() { return this.state[this.units]; }
    get key() { return [this.state.no, engine().first_attempt(), this.units, root.dataset.decimalMark]; }

    save() { this.keep.save(this.state); }

    /* Draws the problem of the present number and units. What had the focus may be gone with the old problem; the new
       statement is what there is to read. */
    refresh() {
      const held = this.body.contains(document.activeElement);
      recipe(this.id, (found) => {
        this.recipe = found;
        this.draw();
        if (held || this.awaited) this.read();
      }, (refused) => this.refuse(refused));
    }

    /* Where the engine cannot run, the sample stays and says so. */
    refuse(refused) {
      console.error(refused);
      if (this.refused) return;
      this.refused = make('p', { class: 'practice-aims', role: 'status' }, say('practice.unavailable'));
      this.block.append(this.refused);
    }

    draw() {
      /* The same problem may be on the page twice: each has ids of its own. */
      const drawn = JSON.parse(this.recipe.draw(...this.key, fresh('drawing')));
      this.name();
      if (drawn.fault) {
        this.body.replaceChildren(this.fault(drawn.fault), this.again());
        return;
      }
      this.parts = drawn.parts.map((part) => this.part(part));
      this.pieces = pieces(this.parts);
      this.shown = make('div', { class: 'practice-shown' });
      this.total = make('p', { class: 'practice-total', role: 'status' });
      this.statement = rich('div', { class: 'practice-statement', tabindex: '-1' }, drawn.statement);
      this.body.replaceChildren(this.statement, this.form(), this.total, this.shown);
      measure();
    }

    fault({ code }) { return make('p', {}, say('practice.fault', { code })); }

    /* Leads to the statement, at once or when it has been drawn. */
    read() {
      this.awaited = !this.statement;
      if (this.statement) this.statement.focus();
    }

    /* The number is a link that brings back exactly this problem. */
    name() {
      const words = { number: this.state.no, units: say(`units.${this.units}`) };
      const query = new URLSearchParams({ p: this.id, no: this.state.no, units: this.units });
      const link = make('a', { href: `${this.keep.page}?${query}`, 'aria-label': say('practice.number_link', words) },
        say('practice.number', words));
      link.addEventListener('click', (event) => this.share(event, link));
      this.label.replaceChildren(link);
    }

    share(event, link) {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      const here = this.keep.page === '';
      if (!here && !navigator.clipboard) return;
      event.preventDefault();
      if (here) history.replaceState(null, '', link.href);
      const shown = () => (here ? notice(say('practice.link_shown')) : location.assign(link.href));
      if (!navigator.clipboard) shown();
      else navigator.clipboard.writeText(link.href).then(() => notice(say('practice.link_copied')), shown);
    }

    part(part) {
      const { keep, status } = this.piece(part);
      const field = fields[part.form](part, keep, (cell) => this.piece(cell));
      return { ...part, field, status, cells: field.cells };
    }

    /* What is answered under one name: what its field needs, and the place of its verdict. */
    piece({ id: name }) {
      const id = fresh('part');
      const keep = {
        id,
        kept: this.answers[name] || '',
        changed: (text) => {
          this.answers[name] = text;
          this.save();
        },
      };
      return { keep, status: make('div', { class: 'part-verdict', role: 'status', id: `${id}-verdict` }) };
    }

    form() {
      const check = make('button', { type: 'submit', class: 'action action-main' }, say('practice.check'));
      const actions = this.actions();
      /* A single number has its Check beside it; several parts share one below. */
      const line = this.parts.length === 1 ? this.parts[0].field.line : null;
      if (line) line.append(check);
      else actions.prepend(check);
      const form = make('form', { class: 'practice-form', novalidate: true },
        ...this.parts.flatMap((part) => [part.field.element, part.cells ? null : part.status]), actions);
      form.addEventListener('submit', (event) => {
        event.preventDefault();
        this.check();
      });
      return form;
    }

    actions() {
      const start = 'start' in this.block.dataset ? this.opener('start', say('practice.start')) : null;
      return make('div', { class: 'actions' }, start, this.opener('working', say('practice.working')), this.again());
    }

    again() {
      return button(say('practice.fresh'), { class: 'action' }, () => {
        this.keep.state = kept.begin(kept.freshNumber());
        this.save();
        this.keep.renew();
        this.refresh();
        this.read();
      });
    }

    /* A button that opens the first step or the working below the form. */
    opener(what, label) {
      const id = fresh(what);
      const opener = button(label, { class: 'action', 'aria-expanded': 'false', 'aria-controls': id }, () => {
        const open = opener.getAttribute('aria-expanded') !== 'true';
        opener.setAttribute('aria-expanded', String(open));
        const old = document.getElementById(id);
        if (old) old.remove();
        if (open) this.open(what, id);
      });
      return opener;
    }

    open(what, id) {
      this.shown.append(reveal(what, id, JSON.parse(this.recipe.solve(...this.key))));
      measure();
      if (what !== 'working' || this.state.settled) return;
      this.state.opened = true;
      this.save();
    }

    /* Marks what is answered; with no answer anywhere, says so at the first place. An order is there from the start, and is
       taken for an answer once all else is answered. */
    check() {
      const begun = this.pieces.filter((part) => part.field.begun());
      const all = this.pieces.every((part) => part.field.answer().trim() !== '');
      const answered = all ? this.pieces : begun;
      const answers = Object.fromEntries(answered.map((part) => [part.id, part.field.answer()]));
      const marked = JSON.parse(this.recipe.mark(...this.key, JSON.stringify(answers)));
      this.pieces.forEach((part) => part.status.replaceChildren());
      this.total.textContent = '';
      if (marked.fault) {
        this.pieces[0].status.replaceChildren(this.fault(marked.fault));
        return;
      }
      const results = pieces(marked.parts);
      const mark = (part) => results.find((each) => each.id === part.id);
      (answered.length > 0 ? answered : this.pieces.slice(0, 1)).forEach((part) => this.show(part, mark(part)));
      if (all && this.pieces.length > 1) this.total.textContent = sum(marked);
      this.settle(answered.map(mark));
    }

    show(part, result) {
      if (part.field.judged) part.field.judged(result.verdict);
      part.status.replaceChildren(verdict(result, part, part.field.answer().trim(), (reading) => {
        part.field.take(reading);
        this.check();
      }));
    }

    /* What goes into the record is how the first answer to each part went, once for each number. */
    settle(results) {
      const { state } = this;
      if (state.settled) return;
      results.filter((result) => !OPEN.includes(result.verdict) && !(result.id in state.first))
        .forEach((result) => { state.first[result.id] = result.credit === 100; });
      const missed = Object.values(state.first).includes(false);
      const done = this.pieces.every((part) => part.id in state.first);
      state.settled = missed || done;
      state.clean = done && !missed && !state.opened;
      this.save();
      if (state.settled) record.settle(this.id, this.level, state.clean);
    }
  }

  SEATWORK.Problem = Problem;
})();
